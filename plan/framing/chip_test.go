package framing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// What anyone sees in a picture of the sky: with north up east is on the left; with east up north is on the
// right; mirrored, left and right change places.
func TestChipShowsTheSkyAsItIs(t *testing.T) {
	centre := sky.J2000{RA: 100 * sky.Degree, Dec: 20 * sky.Degree}
	plane := framing.NewTangentPlane(centre)
	north := plane.Sky(framing.PlanePoint{North: 100 * sky.Arcsecond})
	east := plane.Sky(framing.PlanePoint{East: 100 * sky.Arcsecond})
	tests := []struct {
		name        string
		angle       sky.Angle
		mirrored    bool
		north, east framing.Pixel
	}{
		{"north up", 0, false, framing.Pixel{Y: 50}, framing.Pixel{X: -50}},
		{"east up", 90 * sky.Degree, false, framing.Pixel{X: 50}, framing.Pixel{Y: 50}},
		{"south up", 180 * sky.Degree, false, framing.Pixel{Y: -50}, framing.Pixel{X: 50}},
		{"west up", 270 * sky.Degree, false, framing.Pixel{X: -50}, framing.Pixel{Y: -50}},
		{"north up, mirrored", 0, true, framing.Pixel{Y: 50}, framing.Pixel{X: 50}},
		{"east up, mirrored", 90 * sky.Degree, true, framing.Pixel{X: -50}, framing.Pixel{Y: 50}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			chip := framing.NewChip(sensor{Width: 200, Height: 200, PerPixel: 2 * sky.Arcsecond, Mirrored: test.mirrored}, centre, test.angle)
			for name, pair := range map[string][2]any{"north": {north, test.north}, "east": {east, test.east}} {
				got, ok := chip.Pixel(pair[0].(sky.J2000))
				want := pair[1].(framing.Pixel)
				require.True(t, ok)
				assert.InDelta(t, want.X, got.X, 1e-8, name) // rounding of 100″ in a radian
				assert.InDelta(t, want.Y, got.Y, 1e-8, name)
			}
			assert.InDelta(t, 0, Signed(chip.CameraAngle()-test.angle), 1e-9)
		})
	}
}

// Signed returns an angle in degrees, (−180, 180].
func Signed(a sky.Angle) float64 { return a.Signed().Degrees() }

func TestSensorOfTheExample(t *testing.T) {
	k := kit.Example()
	s := framing.MainSensor(k)
	assert.InDelta(t, k.ScaleArcsecPerPixel(), s.PerPixel.Arcseconds(), 1e-12)
	width, height := k.Field() // 2·atan(d/2f), which is the plane's size seen from the centre
	planeWidth, planeHeight := s.PlaneSize()
	assert.InDelta(t, width.Degrees(), 2*math.Atan(float64(planeWidth)/2)*180/math.Pi, 1e-12)
	assert.InDelta(t, height.Degrees(), 2*math.Atan(float64(planeHeight)/2)*180/math.Pi, 1e-12)
	assert.InDelta(t, 3757.5417, s.CornerPixels(), 0.0001) // √(3124² + 2088²) = √14119120
	assert.Equal(t, 180*sky.Degree, s.Alike())
	assert.Equal(t, 90*sky.Degree, sensor{Width: 3000, Height: 3000}.Alike())

	guide, ok := framing.GuideSensor(k)
	require.True(t, ok)
	assert.InDelta(t, 3.8675, guide.PerPixel.Arcseconds(), 0.00005) // 206.265 × 3.75 / 200
	k.Guide = kit.Guide{}
	_, ok = framing.GuideSensor(k)
	assert.False(t, ok)
}

func TestCornersAreAsFarApartAsTheFieldIs(t *testing.T) {
	k := kit.Example()
	width, height := k.Field()
	rapid.Check(t, func(t *rapid.T) {
		chip := framing.NewChip(framing.MainSensor(k), anyPlace(t), anyAngle(t, "angle", 0, 360))
		c := chip.Corners()
		middleOf := func(a, b sky.J2000) sky.Direction { return a.Direction().Plus(1, b.Direction()).Unit() }
		left, right := middleOf(c[0], c[3]), middleOf(c[1], c[2])
		bottom, top := middleOf(c[0], c[1]), middleOf(c[3], c[2])
		require.InDelta(t, width.Degrees(), left.Separation(right).Degrees(), 1e-9) // the field is measured through the centre
		require.InDelta(t, height.Degrees(), bottom.Separation(top).Degrees(), 1e-9)
		require.True(t, chip.Contains(chip.Centre()))
		outside := chip.Sky(framing.Pixel{X: 3124.01})
		require.False(t, chip.Contains(outside), "a hundredth of a pixel past the right edge")
	})
}

func TestCameraAngleIsWhatWasAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		centre := sky.J2000{RA: anyAngle(t, "ra", 0, 359.9), Dec: anyAngle(t, "dec", -89.9, 89.9)}
		angle := anyAngle(t, "angle", 0, 360)
		chip := framing.NewChip(anySensor(t), centre, angle)
		require.InDelta(t, 0, Signed(chip.CameraAngle()-angle), 1e-9) // 1e-16 rad over the cosine of 89.9°
		require.Less(t, chip.Centre().Direction().Separation(centre.Direction()).Arcseconds(), 1e-8)
	})
}

func TestMiddleLiesWhereTheTargetWantsIt(t *testing.T) {
	target := kit.Target{Star: sky.Star{Place: sky.J2000{RA: 84 * sky.Degree, Dec: -69 * sky.Degree}},
		Middle: kit.SkyOffset{East: 12 * sky.Arcminute, North: -5 * sky.Arcminute}}
	middle := framing.Middle(target)
	chip := framing.NewChip(sensor{Width: 100, Height: 100, PerPixel: sky.Arcminute}, middle, 0)
	p, ok := chip.Pixel(target.Star.Place)
	require.True(t, ok)
	// The chip looks east and south of it: it lies to the right (west) and up by as much, but for the turn of
	// north over 12′ at −69°: 12′·tan 69° = 0.5°, which moves 12′ by 0.1′.
	assert.InDelta(t, 12, p.X, 0.15)
	assert.InDelta(t, 5, p.Y, 0.15)
	assert.InDelta(t, 13, math.Hypot(p.X, p.Y), 0.001) // 5, 12, 13, and 13′ are a tangent to 1e-5 of themselves
	assert.Equal(t, target.Star.Place.Dec.Degrees(), -69.0)
}

// A chip that looks off stays at the same pixel offset whatever the camera angle: both turn together.
func TestGuideChipIsFixedToTheMainChip(t *testing.T) {
	k := kit.Example()
	k.Guide.Offset = &kit.ChipOffset{Right: 0.8 * sky.Degree, Up: -0.3 * sky.Degree}
	k.Guide.Turned = 25 * sky.Degree
	rapid.Check(t, func(t *rapid.T) {
		k.Camera.Mirrored = rapid.Bool().Draw(t, "mirrored")
		main := framing.NewChip(framing.MainSensor(k), anyPlace(t), anyAngle(t, "angle", 0, 360))
		guide, ok := framing.GuideChip(k, main)
		require.True(t, ok)
		p, ok := main.Pixel(guide.Centre())
		require.True(t, ok)
		perPixel := main.PerPixel.Degrees()
		require.InDelta(t, 0.8, p.X*perPixel, 1e-8) // as the picture shows it
		require.InDelta(t, -0.3, p.Y*perPixel, 1e-8)

		up, ok := main.Pixel(guide.Sky(framing.Pixel{Y: 10}))
		require.True(t, ok)
		across := -(up.X - p.X) // to the left is anticlockwise, north through east
		if k.Camera.Mirrored {
			across = -across
		}
		leaning := math.Atan2(across, up.Y-p.Y) * 180 / math.Pi
		require.InDelta(t, 25, leaning, 0.01) // the plane stretches by 1e-4 at 0.85°
	})
}

func TestWithoutGuideCameraThereIsNoGuideChip(t *testing.T) {
	k := kit.Example()
	k.Guide.PixelUM = 0
	_, ok := framing.GuideChip(k, framing.NewChip(framing.MainSensor(k), sky.J2000{}, 0))
	assert.False(t, ok)
}
