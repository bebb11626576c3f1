package framing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/framing"
	"duskhand/sky"
)

type sensor = framing.Sensor

// All rows of tangent.csv (wcslib 7.12 through Astropy 5.2.1), poles and 40° fields among them.
func TestProjectionAgreesWithWCSLIB(t *testing.T) {
	var worstPlane, worstPixel, worstBack sky.Angle
	for _, r := range table(t, "tangent.csv", 200) {
		centre := sky.J2000{RA: r.degrees(t, "ra0_deg"), Dec: r.degrees(t, "dec0_deg")}
		place := sky.J2000{RA: r.degrees(t, "ra_deg"), Dec: r.degrees(t, "dec_deg")}
		plane := framing.NewTangentPlane(centre)
		got, ok := plane.Project(place)
		require.True(t, ok, "row %s", r["id"])
		worstPlane = max(worstPlane, (got.East - r.degrees(t, "xi_deg")).Abs(), (got.North - r.degrees(t, "eta_deg")).Abs())
		worstBack = max(worstBack, plane.Sky(got).Direction().Separation(place.Direction()))

		perPixel := sky.Angle(r.number(t, "scale_arcsec")) * sky.Arcsecond
		chip := framing.NewChip(sensor{Width: 1000, Height: 1000, PerPixel: perPixel}, centre, r.degrees(t, "angle_deg"))
		p, ok := chip.Pixel(place)
		require.True(t, ok, "row %s", r["id"])
		worstPixel = max(worstPixel, perPixel*sky.Angle(math.Max(math.Abs(p.X-r.number(t, "x_px")), math.Abs(p.Y-r.number(t, "y_px")))))
	}
	t.Logf("largest: plane %.1e″, pixel %.1e″, back %.1e″", worstPlane.Arcseconds(), worstPixel.Arcseconds(), worstBack.Arcseconds())
	// The table's last digits: 1e-12° in the plane, 1e-9 of 60″ on the chip.
	const digits = 1e-6 * sky.Arcsecond
	assert.Less(t, worstPlane, digits)
	assert.Less(t, worstPixel, digits)
	assert.Less(t, worstBack, digits)
}

func TestProjectionOfWhatIsKnownByHand(t *testing.T) {
	plane := framing.NewTangentPlane(sky.J2000{RA: 40 * sky.Degree})
	tests := []struct {
		name    string
		ra, dec float64
		want    framing.PlanePoint
	}{
		{"the centre", 40, 0, framing.PlanePoint{}},
		{"45° east along the equator", 85, 0, framing.PlanePoint{East: 1}},                   // tan 45°
		{"30° west", 10, 0, framing.PlanePoint{East: -sky.Angle(1 / math.Sqrt(3))}},          // tan 30°
		{"60° north", 40, 60, framing.PlanePoint{North: sky.Angle(math.Sqrt(3))}},            // tan 60°
		{"the cube's corner", 85, 35.264389682754654, framing.PlanePoint{East: 1, North: 1}}, // (1, 1, 1)/√3: sin δ = 1/√3
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, ok := plane.Project(sky.J2000{RA: sky.Angle(test.ra) * sky.Degree, Dec: sky.Angle(test.dec) * sky.Degree})
			require.True(t, ok)
			assert.InDelta(t, float64(test.want.East), float64(got.East), 1e-14) // rounding
			assert.InDelta(t, float64(test.want.North), float64(got.North), 1e-14)
		})
	}
}

func TestNothingBehindTheEyeIsProjected(t *testing.T) {
	plane := framing.NewTangentPlane(sky.J2000{})
	for _, ra := range []float64{90.0001, 180, 269.9} {
		_, ok := plane.Project(sky.J2000{RA: sky.Angle(ra) * sky.Degree})
		assert.False(t, ok, "right ascension %v°", ra)
		chip := framing.NewChip(sensor{Width: 10, Height: 10, PerPixel: sky.Arcsecond}, sky.J2000{}, 0)
		_, ok = chip.Pixel(sky.J2000{RA: sky.Angle(ra) * sky.Degree})
		assert.False(t, ok)
	}
}

// Sky to chip to sky within 0.001″, chip to sky to chip within a millionth of a pixel: anywhere, at any
// angle, mirrored or not.
func TestSkyToChipToSkyAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySensor(t)
		chip := framing.NewChip(s, anyPlace(t), anyAngle(t, "angle", -360, 360))
		p := framing.Pixel{
			X: rapid.Float64Range(-0.5, 0.5).Draw(t, "x") * float64(s.Width),
			Y: rapid.Float64Range(-0.5, 0.5).Draw(t, "y") * float64(s.Height),
		}
		place := chip.Sky(p)
		again, ok := chip.Pixel(place)
		require.True(t, ok)
		// A place near the pole keeps its right ascension to 1e-16 rad × 1/cos δ of itself: nothing on the sky.
		require.InDelta(t, p.X, again.X, 1e-6)
		require.InDelta(t, p.Y, again.Y, 1e-6)
		back := chip.Sky(again).Direction().Separation(place.Direction())
		require.Less(t, back.Arcseconds(), 0.001)
		require.True(t, chip.Contains(place) || math.Abs(p.X)*2 > float64(s.Width)-1e-5 || math.Abs(p.Y)*2 > float64(s.Height)-1e-5)
	})
}

func BenchmarkFraming500Stars(b *testing.B) {
	chip := framing.NewChip(sensor{Width: 6248, Height: 4176, PerPixel: 1.6157 * sky.Arcsecond}, sky.J2000{RA: 84 * sky.Degree, Dec: -69 * sky.Degree}, 30*sky.Degree)
	places := make([]sky.J2000, 500)
	for i := range places {
		places[i] = sky.J2000{RA: sky.Angle(80+i%25) * sky.Degree, Dec: sky.Angle(-72+i/100) * sky.Degree}
	}
	b.ReportAllocs()
	for b.Loop() {
		for _, place := range places {
			chip.Pixel(place)
		}
	}
}
