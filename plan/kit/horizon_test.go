package kit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"duskhand/plan/kit"
	"duskhand/sky"
)

func point(azimuthDeg, altitudeDeg float64, name string) kit.HorizonPoint {
	return kit.HorizonPoint{Azimuth: sky.Angle(azimuthDeg) * sky.Degree, Altitude: sky.Angle(altitudeDeg) * sky.Degree, Name: name}
}

func TestHorizonIsLinearBetweenPointsAroundTheCompass(t *testing.T) {
	skyline := []kit.HorizonPoint{point(350, 10, "shed"), point(30, 30, "trees"), point(180, 0, "")} // not in order
	cases := []struct {
		name                string
		azimuthDeg, wantAlt float64 // by the straight line between the two points, by hand
		wantName            string
	}{
		{"on a point", 30, 30, "trees"},
		{"a quarter of the way across north", 0, 15, "shed"},
		{"three quarters of the way across north", 20, 25, "trees"},
		{"north as 360°", 360, 15, "shed"},
		{"a negative azimuth", -10, 10, "shed"},
		{"half-way down the trees", 105, 15, ""},
		{"a little before half-way", 104, 30 * (180 - 104) / 150.0, "trees"},
		{"in the west", 265, 5, "shed"},
		{"just before north's last point", 349.999, 9.999941, "shed"},
	}
	h := kit.NewHorizon(skyline)
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			azimuth := sky.Angle(c.azimuthDeg) * sky.Degree
			assert.InDelta(t, c.wantAlt, h.At(azimuth).Degrees(), 1e-6, "degrees; by hand to so many digits")
			assert.Equal(t, c.wantName, h.ObstructionAt(azimuth))
		})
	}
}

func TestHorizonOfFewPoints(t *testing.T) {
	assert.Zero(t, kit.Horizon{}.At(3*sky.Degree))
	assert.Zero(t, kit.NewHorizon(nil).At(3*sky.Degree))
	assert.Empty(t, kit.Horizon{}.ObstructionAt(3*sky.Degree))
	one := kit.NewHorizon([]kit.HorizonPoint{point(90, 12, "wall")})
	for _, azimuthDeg := range []float64{0, 90, 270, 359} {
		assert.InDelta(t, 12, one.At(sky.Angle(azimuthDeg)*sky.Degree).Degrees(), 1e-12)
		assert.Equal(t, "wall", one.ObstructionAt(sky.Angle(azimuthDeg)*sky.Degree))
	}
	double := kit.NewHorizon([]kit.HorizonPoint{point(90, 3, ""), point(90, 12, "wall"), point(450, 5, "")})
	assert.Len(t, double.Points(), 1)
	assert.InDelta(t, 12, double.At(90*sky.Degree).Degrees(), 1e-12, "the higher of two counts")
}

func TestHorizonStaysBetweenItsPointsAndCopiesThem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var points []kit.HorizonPoint
		low, high := sky.Turn, -sky.Turn
		for range rapid.IntRange(1, 8).Draw(t, "points") {
			p := point(rapid.Float64Range(-720, 720).Draw(t, "azimuth"), rapid.Float64Range(-5, 89).Draw(t, "altitude"), "")
			points, low, high = append(points, p), min(low, p.Altitude), max(high, p.Altitude)
		}
		h := kit.NewHorizon(points)
		azimuth := sky.Angle(rapid.Float64Range(-10, 10).Draw(t, "at, radians"))
		points[0].Altitude = 1e9
		at := h.At(azimuth)
		const rounding = 1e-12 // radians
		if !(at >= low-rounding && at <= high+rounding) {
			t.Fatalf("at %v: %v is outside %v to %v", azimuth, at, low, high)
		}
	})
}

func TestHorizonAllocatesNothing(t *testing.T) {
	h := kit.Example().Horizon
	assert.Zero(t, testing.AllocsPerRun(100, func() { h.At(100 * sky.Degree); h.ObstructionAt(100 * sky.Degree) }))
}

func TestTheExampleSkylineHasItsTrees(t *testing.T) {
	h := kit.Example().Horizon
	assert.Equal(t, "gum trees", h.ObstructionAt(110*sky.Degree))
	assert.InDelta(t, 20.5, h.At(110*sky.Degree).Degrees(), 1e-9) // half-way from 22° at 95° to 19° at 125°
}
