package ui_test

import (
	"testing"

	"duskhand/plan/kit"
)

// With no folder watched the room of the subs says how to watch one, in the place of what nothing would fill.
func TestSubsWithoutAFolderSaysHowToWatchOne(t *testing.T) {
	s := at(t, local(22, 0), func(k *kit.Kit) { k.Watch.Folders = nil })
	s.press("6").sees("watches the subs", "[watch]", `folders = ["/where/the/lights/go"]`, "duskhand subs FOLDER").
		seesNot("half-flux", "elongation", "exposure")
}
