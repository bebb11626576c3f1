package decide

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/sky/catalog"
)

// The list leaves room for whole names beside the other pages: "NGC 1365, Great Barred Spiral Galaxy" is among the
// longest.
func TestTheListLeavesRoomForWholeNames(t *testing.T) {
	longest := 0
	for _, o := range catalog.DeepSky() {
		if o.HasName() && len([]rune(o.ID)) <= 8 {
			longest = max(longest, len([]rune(o.ID+", "+o.Names[0])))
		}
	}
	for _, room := range []int{118, 198} {
		taken := 0
		for _, c := range choiceColumns() {
			if listWidth(room) >= c.from && c.Width > 0 {
				taken += c.Width + 2
			}
		}
		assert.GreaterOrEqual(t, listWidth(room)-taken-2, min(longest, 38), "in a room of %d columns", room)
	}
}
