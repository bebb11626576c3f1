package framing

import (
	"math"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// Sensor is a chip behind a telescope. PerPixel is pixel over focal length: the angle of one pixel at the
// middle, and its step in the tangent plane everywhere. Mirrored pictures show east on the right when
// north is up.
type Sensor struct {
	Width, Height int // pixels
	PerPixel      sky.Angle
	Mirrored      bool
}

// Pixel is a place on a chip in pixels from its middle: X right, Y up as the picture shows them.
type Pixel struct{ X, Y float64 }

// MainSensor returns the kit's camera behind its main telescope.
func MainSensor(k kit.Kit) Sensor {
	return Sensor{k.Camera.Width, k.Camera.Height, perPixel(k.Camera.PixelUM, k.Optics.FocalLengthMM), k.Camera.Mirrored}
}

// GuideSensor returns the guide camera behind the guide telescope; ok is false when the kit does not have
// both. Its picture is not mirrored.
func GuideSensor(k kit.Kit) (sensor Sensor, ok bool) {
	if !k.Guide.Has() || k.Optics.GuideFocalLengthMM <= 0 {
		return Sensor{}, false
	}
	return Sensor{k.Guide.Width, k.Guide.Height, perPixel(k.Guide.PixelUM, k.Optics.GuideFocalLengthMM), false}, true
}

// perPixel is the handbook's 206.265·p/f before it is read in seconds of arc.
func perPixel(pixelUM, focalLengthMM float64) sky.Angle {
	return sky.Angle(pixelUM / 1000 / focalLengthMM)
}

// PlaneSize returns width and height of the chip in the tangent plane.
func (s Sensor) PlaneSize() (width, height sky.Angle) {
	return sky.Angle(s.Width) * s.PerPixel, sky.Angle(s.Height) * s.PerPixel
}

// CornerPixels returns how far a corner is from the middle, in pixels.
func (s Sensor) CornerPixels() float64 { return math.Hypot(float64(s.Width), float64(s.Height)) / 2 }

// Alike returns the turn after which the frame covers the same sky again: 90° for a square chip, else 180°.
func (s Sensor) Alike() sky.Angle {
	if s.Width == s.Height {
		return 90 * sky.Degree
	}
	return 180 * sky.Degree
}

// holds tells whether p lies on the chip, its edge included.
func (s Sensor) holds(p Pixel) bool {
	return 2*math.Abs(p.X) <= float64(s.Width) && 2*math.Abs(p.Y) <= float64(s.Height)
}

// side is the sign of x on the chip along the true right of the sky.
func (s Sensor) side() float64 {
	if s.Mirrored {
		return -1
	}
	return 1
}
