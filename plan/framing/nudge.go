package framing

import (
	"math"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// Nudge is a move of the mount's two axes from where they stand: Azimuth from north through east about the
// mount's own axis, which is to the right for who looks along the telescope with the mount's up on top;
// Altitude up +.
type Nudge struct {
	Azimuth, Altitude sky.Angle // turns of the axes
	AzimuthOnSky      sky.Angle // the way along the sky that the turn in azimuth is: less, by the cosine of the altitude
	CameraAngle       sky.Angle // by how much it changes the camera angle, until the derotator takes it back
}

// ChipTurn returns the angle of the chip's up from the mount's up while the derotator reads a given angle,
// north through east (anticlockwise): the camera angle minus the field angle χ. As the derotator follows the
// field it changes, and with it the answer to which way to press.
// Source: the project's handbook, section 9.
func ChipTurn(k kit.Kit, reading sky.Angle) sky.Angle {
	return k.Camera.AngleAtZero - sky.Angle(k.Derotator.Sense)*reading
}

// Mount is how the chip hangs on the mount at an instant: its azimuth axis (east, north, up) and the turn of
// the chip from the mount's up.
type Mount struct {
	Axis     sky.Direction
	ChipTurn sky.Angle
}

// Nudge returns how to move the axes so that an object, which the picture shows at one place, comes to
// another. object is where the object truly stands at the instant (east, north, up).
//
// ok is false where the mount can't look so that the object falls there, because it stands too near the
// mount's own axis.
// Valid:  the axes square to each other and to the line of sight; refraction, which lifts both ends of the
// way alike but for some seconds of arc, is left out.
// Error:  rounding; it is the closed solution, not a small-angle one, and holds near the keyhole too.
func (m Mount) Nudge(s Sensor, object sky.Direction, from, to Pixel) (n Nudge, ok bool) {
	before, ok1 := m.aim(s, object, from)
	after, ok2 := m.aim(s, object, to)
	if !ok1 || !ok2 {
		return Nudge{}, false
	}
	n.Azimuth, n.Altitude = (before.behind - after.behind).Signed(), after.altitude-before.altitude
	middle := (after.altitude + before.altitude) / 2
	n.AzimuthOnSky = n.Azimuth * sky.Angle(middle.Cos())
	n.CameraAngle = n.Azimuth * sky.Angle(middle.Sin())
	return n, true
}

// aimed is where the mount looks: its altitude about the axis, and by how much its azimuth is less than the
// object's.
type aimed struct{ altitude, behind sky.Angle }

// aim returns where the mount looks when an object falls on a pixel.
//
// In the mount's axes the object, at altitude h, lies x to the right and y up of the line of sight, at
// altitude a, in the tangent plane: sin h · √(1 + x² + y²) = sin a + y cos a, and tan ΔA = x/(cos a − y sin a).
func (m Mount) aim(s Sensor, object sky.Direction, p Pixel) (a aimed, ok bool) {
	k := float64(s.PerPixel)
	sin, cos := math.Sincos(float64(m.ChipTurn))
	right, up := s.side()*p.X*k, p.Y*k
	x, y := right*cos-up*sin, right*sin+up*cos // the chip's axes turned back to the mount's
	sine := object.Dot(m.Axis) * math.Sqrt((1+x*x+y*y)/(1+y*y))
	if math.Abs(sine) > 1 {
		return aimed{}, false
	}
	a.altitude = sky.Angle(math.Asin(sine) - math.Atan(y))
	if a.altitude > 90*sky.Degree { // over the top, where no altitude axis goes
		return aimed{}, false
	}
	a.behind = sky.Angle(math.Atan2(x, a.altitude.Cos()-y*a.altitude.Sin()))
	return a, true
}
