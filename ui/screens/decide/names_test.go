package decide_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/sky/catalog"
	"duskhand/ui/screens/decide"
)

// The list leaves room for names beside the other pages: for all but the longest, such as "NGC 1365, Great Barred Spiral
// Galaxy", in a window of 120 columns, and for all of them in one of 200.
func TestTheListLeavesRoomForWholeNames(t *testing.T) {
	longest := 0
	for _, o := range catalog.DeepSky() {
		if o.HasName() && len([]rune(o.ID)) <= 8 {
			longest = max(longest, len([]rune(o.ID+", "+o.Names[0])))
		}
	}
	for room, letters := range map[int]int{118: 34, 198: longest} { // of windows of 120 and 200 columns
		assert.GreaterOrEqual(t, decide.NameRoom(room), letters, "in a room of %d columns", room)
	}
}
