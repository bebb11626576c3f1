package framing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"duskhand/plan/framing"
	"duskhand/sky"
)

// By hand: an ellipse of 40′ × 20′ along north fills 20′ × 40′ of an upright frame and 40′ × 20′ of one turned
// by 90°; a circle fills its diameter at every angle.
func TestBoxOfAnEllipse(t *testing.T) {
	for _, test := range []struct {
		name                  string
		major, minor, pa      float64
		camera, width, height float64
	}{
		{"along north, upright", 40, 20, 0, 0, 20, 40},
		{"along north, frame on its side", 40, 20, 0, 90, 40, 20},
		{"along east, upright", 40, 20, 90, 0, 40, 20},
		{"turned with the frame", 40, 20, 123, 123, 20, 40},
		{"diagonal", 40, 20, 45, 0, math.Sqrt(1000), math.Sqrt(1000)}, // √((40² + 20²)/2)
		{"round", 30, 30, 17, 60, 30, 30},
	} {
		e := framing.Ellipse{Major: sky.Angle(test.major) * sky.Arcminute, Minor: sky.Angle(test.minor) * sky.Arcminute, PositionAngle: sky.Angle(test.pa) * sky.Degree}
		width, height := e.Box(sky.Angle(test.camera) * sky.Degree)
		assert.InDelta(t, test.width, width.Arcminutes(), 1e-9, test.name)
		assert.InDelta(t, test.height, height.Arcminutes(), 1e-9, test.name)
	}
}

// The places lie on the ellipse: seen by a frame along the major axis, (x/a)² + (y/b)² = 1, and the box just
// holds them at any camera angle.
func TestPlacesLieOnTheEllipse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, low, high float64) sky.Angle {
			return sky.Angle(rapid.Float64Range(low, high).Draw(t, name))
		}
		middle := sky.J2000{RA: number("ra", 0, 359) * sky.Degree, Dec: number("dec", -85, 85) * sky.Degree}
		major := number("major", 1, 200) * sky.Arcminute
		e := framing.Ellipse{Major: major, Minor: major * number("ratio", 0.1, 1), PositionAngle: number("pa", 0, 180) * sky.Degree}
		along := framing.NewChip(framing.Sensor{Width: 1, Height: 1, PerPixel: sky.Arcsecond}, middle, e.PositionAngle)
		camera := number("camera", 0, 360) * sky.Degree
		turned := framing.NewChip(framing.Sensor{Width: 1, Height: 1, PerPixel: sky.Arcsecond}, middle, camera)
		const n = 360
		right, up := 0.0, 0.0
		for _, place := range e.Places(middle, n) {
			p, _ := along.Pixel(place)
			a, b := e.Major.Arcseconds()/2, e.Minor.Arcseconds()/2
			assert.InDelta(t, 1, p.Y*p.Y/a/a+p.X*p.X/b/b, 1e-6)
			q, _ := turned.Pixel(place)
			right, up = math.Max(right, q.X), math.Max(up, q.Y)
		}
		width, height := e.Box(camera)
		// 1 − cos(½°) between samples, squeezed at most tenfold.
		assert.InEpsilon(t, width.Arcseconds()/2, right, 0.005)
		assert.InEpsilon(t, height.Arcseconds()/2, up, 0.005)
	})
}
