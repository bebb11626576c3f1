package facts_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/framing"
	"duskhand/sky"
)

// The picture is drawn where the run's last light looks, at the angle that its stars show, whatever the kit's angle at
// reading 0 says; after the run it is where the next begins.
func TestThePictureStandsWhereTheStarsShowIt(t *testing.T) {
	begins := dusk.Add(2 * time.Minute)
	n := exposing(t)
	r := n.at(begins)
	told := r.FrameAt(r.Tonight.FramingOf())
	assert.False(t, told.Seen)
	light := placed(r, 0, begins, 123*sky.Degree)
	light.Placed.DecDeg += 0.1
	n.log.Arrived = append(n.log.Arrived, light)
	r = n.at(begins.Add(2 * time.Minute))
	seen := r.FrameAt(r.Tonight.FramingOf())
	require.True(t, seen.Seen)
	assert.InDelta(t, 123, seen.Chip.CameraAngle().Degrees(), 1e-6)
	assert.NotEqual(t, told.Chip.CameraAngle(), seen.Chip.CameraAngle())
	at, ok := seen.Chip.Pixel(framing.Middle(r.Target))
	require.True(t, ok)
	assert.Greater(t, at.X*at.X+at.Y*at.Y, 100.0, "the target is off the middle, as it is on the light")
}
