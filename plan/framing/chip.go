package framing

import (
	"math"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// Chip is a sensor on the sky: where its middle looks and how it is turned.
type Chip struct {
	Sensor
	forward, right, up sky.Direction // J2000; right as the eye sees it, whatever the picture does
}

// NewChip returns a chip whose middle looks at centre with its up at the position angle cameraAngle.
//
// Frame: J2000, the camera angle too. At a celestial pole it counts from the centre's right ascension.
func NewChip(s Sensor, centre sky.J2000, cameraAngle sky.Angle) Chip {
	plane := NewTangentPlane(centre)
	sin, cos := math.Sincos(float64(cameraAngle))
	return Chip{
		Sensor:  s,
		forward: plane.centre,
		// Position angles grow anticlockwise: with north up, east is on the left.
		right: sky.Direction{}.Plus(-cos, plane.east).Plus(sin, plane.north),
		up:    sky.Direction{}.Plus(sin, plane.east).Plus(cos, plane.north),
	}
}

// Middle returns where the middle of the chip is to look for a target: its place moved by the kit's offset.
// Proper motion since J2000 is left out; it is seconds of arc for the nearest stars and nothing for others.
func Middle(target kit.Target) sky.J2000 {
	return NewTangentPlane(target.Star.Place).Sky(PlanePoint(target.Middle))
}

// Centre returns where the middle of the chip looks.
func (c Chip) Centre() sky.J2000 { return c.forward.J2000() }

// CameraAngle returns the position angle of the chip's up at its middle, J2000, [0°, 360°).
func (c Chip) CameraAngle() sky.Angle {
	plane := NewTangentPlane(c.Centre())
	return sky.Angle(math.Atan2(c.up.Dot(plane.east), c.up.Dot(plane.north))).Wrapped()
}

// Pixel returns where place falls in the chip's axes, also beyond its edge; ok is false from 90° from the
// middle on.
func (c Chip) Pixel(place sky.J2000) (p Pixel, ok bool) { return c.pixel(place.Direction()) }

func (c Chip) pixel(d sky.Direction) (p Pixel, ok bool) {
	depth := d.Dot(c.forward) * float64(c.PerPixel)
	if depth <= 0 {
		return Pixel{}, false
	}
	return Pixel{c.side() * d.Dot(c.right) / depth, d.Dot(c.up) / depth}, true
}

// Sky returns the place that falls on a pixel: the inverse of Pixel, to 0.001″.
func (c Chip) Sky(p Pixel) sky.J2000 { return c.towards(p).J2000() }

func (c Chip) towards(p Pixel) sky.Direction {
	k := float64(c.PerPixel)
	return c.forward.Plus(c.side()*p.X*k, c.right).Plus(p.Y*k, c.up).Unit()
}

// Contains tells whether place falls on the chip, its edge included.
func (c Chip) Contains(place sky.J2000) bool {
	p, ok := c.Pixel(place)
	return ok && c.holds(p)
}

// Corners returns the places of the chip's corners, from the lower left anticlockwise as the picture shows
// them. Great circles join them.
func (c Chip) Corners() [4]sky.J2000 {
	x, y := float64(c.Width)/2, float64(c.Height)/2
	return [4]sky.J2000{c.Sky(Pixel{-x, -y}), c.Sky(Pixel{x, -y}), c.Sky(Pixel{x, y}), c.Sky(Pixel{-x, y})}
}

// beside returns a chip that is fixed to this one: it looks where offset says and its up is turned by
// turned from where the shortest way would carry this chip's up.
func (c Chip) beside(s Sensor, offset kit.ChipOffset, turned sky.Angle) Chip {
	forward := c.forward.Plus(c.side()*float64(offset.Right), c.right).Plus(float64(offset.Up), c.up).Unit()
	carry := func(v sky.Direction) sky.Direction { // the smallest rotation from one forward to the other
		along := v.Dot(forward) / (1 + c.forward.Dot(forward))
		return v.Plus(-along, c.forward).Plus(-along, forward)
	}
	right, up := carry(c.right), carry(c.up)
	sin, cos := math.Sincos(float64(turned)) // anticlockwise, from up to the left
	return Chip{
		Sensor: s, forward: forward,
		right: sky.Direction{}.Plus(cos, right).Plus(sin, up).Unit(),
		up:    sky.Direction{}.Plus(cos, up).Plus(-sin, right).Unit(),
	}
}
