package framing_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/framing"
	"duskhand/sky"
)

func towards(azimuth, altitude sky.Angle) sky.Direction {
	return sky.Horizontal{Azimuth: azimuth * sky.Degree, Altitude: altitude * sky.Degree}.Direction()
}

func TestAMoveIsTheDifferenceInTheMountsAxes(t *testing.T) {
	up := sky.Direction{Z: 1}
	for name, c := range map[string]struct {
		from, to          sky.Direction
		azimuth, altitude float64
	}{
		"to the right, azimuth grows": {towards(100, 60), towards(101, 60), 1, 0},
		"up":                          {towards(100, 60), towards(100, 61.5), 0, 1.5},
		"over north":                  {towards(359, 30), towards(2, 29), 3, -1},
	} {
		t.Run(name, func(t *testing.T) {
			n, ok := framing.Move(up, c.from, c.to)
			require.True(t, ok)
			assert.InDelta(t, c.azimuth, n.Azimuth.Degrees(), 1e-9)
			assert.InDelta(t, c.altitude, n.Altitude.Degrees(), 1e-9)
		})
	}
	_, ok := framing.Move(up, up, towards(0, 60))
	assert.False(t, ok, "at the axis")
}

// An object that the picture shows off the middle comes to the middle by the same way, whether the picture or the
// place of its middle tells. The two agree to the difference between the middle and the object as the axis sees it.
func TestAMoveIsTheNudgeOfThePicture(t *testing.T) {
	sensor := framing.Sensor{Width: 6000, Height: 4000, PerPixel: 1.5 * sky.Arcsecond}
	axis := sky.MountAxis(4*sky.Degree, 300*sky.Degree)
	mount := framing.Mount{Axis: axis} // the chip's up is the mount's
	object := towards(140, 55)
	nudge, ok := mount.Nudge(sensor, object, framing.Pixel{X: 700, Y: -400}, framing.Pixel{})
	require.True(t, ok)
	looked := turnedBack(axis, object, nudge)
	move, ok := framing.Move(axis, looked, object)
	require.True(t, ok)
	assert.InDelta(t, nudge.Azimuth.Arcseconds(), move.Azimuth.Arcseconds(), 1e-6)
	assert.InDelta(t, nudge.Altitude.Arcseconds(), move.Altitude.Arcseconds(), 1e-6)
	assert.Greater(t, looked.Separation(object).Arcseconds(), 1.5*800)
}

// turnedBack returns where a mount looked that looks at object after a nudge.
func turnedBack(axis, object sky.Direction, n framing.Nudge) sky.Direction {
	east := axis.Cross(object).Unit() // along the horizontal of the mount, towards smaller azimuth
	north := object.Cross(east).Unit()
	sin, cos := (-n.Altitude).Sin(), (-n.Altitude).Cos()
	low := sky.Direction{}.Plus(cos, object).Plus(sin, north)
	// Rodrigues about the axis by +azimuth, which is anticlockwise: back.
	s, c := n.Azimuth.Sin(), n.Azimuth.Cos()
	return sky.Direction{}.Plus(c, low).Plus(s, axis.Cross(low)).Plus((1-c)*axis.Dot(low), axis)
}

// North of the middle of a chip whose up is north, near the pole, the columns still run straight; east of it north
// has turned by the meridians' convergence: sin δ of the difference in right ascension, for a short way.
func TestTheCameraAngleAtAPlaceFollowsTheMeridians(t *testing.T) {
	middle := sky.J2000{RA: 84.67 * sky.Degree, Dec: -69.1 * sky.Degree}
	chip := framing.NewChip(framing.Sensor{Width: 100, Height: 100, PerPixel: sky.Arcsecond}, middle, 0)
	assert.InDelta(t, 0, chip.CameraAngleAt(middle).Signed().Degrees(), 1e-12)
	east := sky.J2000{RA: middle.RA + 36*sky.Arcsecond, Dec: middle.Dec}
	turn := chip.CameraAngleAt(east).Signed()
	assert.InDelta(t, 36*middle.Dec.Sin(), turn.Arcseconds(), 0.01)
	again := framing.NewChip(chip.Sensor, east, turn)
	assert.InDelta(t, turn.Degrees(), again.CameraAngle().Signed().Degrees(), 1e-12)
}
