package survey_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// How far the middle of the frame has moved since the first light is what the dithers were.
func TestMovedIsWhatTheDithersWere(t *testing.T) {
	n := newNight(t, 5, nil)
	first := n.shot(0)
	for i := range 4 {
		n.hand(n.seen(i, nil))
		if i == 0 {
			continue // it is what the others are compared with
		}
		moved := n.got[i].Turning.MovedPx
		require.NotNil(t, moved)
		shot := n.shot(i)
		want := math.Hypot(shot.Moved.X-first.Moved.X, shot.Moved.Y-first.Moved.Y)
		assert.InDelta(t, want, *moved, 0.1, "light %d; centroids of some hundred stars to some hundredths of a pixel", i)
		assert.InDelta(t, shot.Moved.X-first.Moved.X, *n.got[i].Turning.MovedXPx, 0.1, "light %d", i)
		assert.InDelta(t, shot.Moved.Y-first.Moved.Y, *n.got[i].Turning.MovedYPx, 0.1, "light %d", i)
	}
}
