package sky_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/sky"
)

func TestAnglesInEachUnit(t *testing.T) {
	for _, c := range []struct {
		name                                            string
		angle                                           sky.Angle
		radians, degrees, arcminutes, arcseconds, hours float64
	}{
		{"nothing", 0, 0, 0, 0, 0, 0},
		{"a right angle", 90 * sky.Degree, math.Pi / 2, 90, 5400, 324000, 6},
		{"a turn", sky.Turn, 2 * math.Pi, 360, 21600, 1296000, 24},
		{"a radian, 206 264.806″ (Meeus, p. 8)", sky.Radian, 1, 57.295779513, 3437.7467708, 206264.80625, 3.8197186342},
		{"an hour", sky.Hour, math.Pi / 12, 15, 900, 54000, 1},
		{"a minute of arc below", -sky.Arcminute, -math.Pi / 10800, -1 / 60., -1, -60, -1 / 900.},
		{"9 h 14 min 55.8 s, Meeus ex. 1.a", sky.Angle(9+14/60.+55.8/3600) * sky.Hour, 2.4213389045, 138.7325, 8323.95, 499437, 9.2488333333},
	} {
		t.Run(c.name, func(t *testing.T) {
			const within = 1e-10 // of the value: the digits written here
			for unit, pair := range map[string][2]float64{
				"radians": {c.radians, c.angle.Radians()}, "degrees": {c.degrees, c.angle.Degrees()},
				"minutes": {c.arcminutes, c.angle.Arcminutes()}, "seconds": {c.arcseconds, c.angle.Arcseconds()}, "hours": {c.hours, c.angle.Hours()},
			} {
				assert.InDelta(t, pair[0], pair[1], within*math.Max(1, math.Abs(pair[0])), unit)
			}
			assert.InDelta(t, math.Abs(c.degrees), c.angle.Abs().Degrees(), within*360)
		})
	}
	// Meeus ex. 1.a goes on: tan α = −0.877517.
	alpha := sky.Angle(9+14/60.+55.8/3600) * sky.Hour
	assert.InDelta(t, -0.877517, alpha.Sin()/alpha.Cos(), 1e-6)
}

func TestRangesOfDirections(t *testing.T) {
	for _, c := range []struct {
		name                     string
		degrees, wrapped, signed float64
	}{
		{"north", 0, 0, 0},
		{"just short of north", 359.5, 359.5, -0.5},
		{"a turn is nothing", 360, 0, 0},
		{"several turns", 1085, 5, 5},
		{"back over north", -5, 355, -5},
		{"south by the left", -180, 180, 180},
		{"past south", 181, 181, -179},
		{"several turns back", -725, 355, -5},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := sky.Angle(c.degrees) * sky.Degree
			assert.InDelta(t, c.wrapped, a.Wrapped().Degrees(), 1e-9)
			assert.InDelta(t, c.signed, a.Signed().Degrees(), 1e-9)
		})
	}
}

func TestRatesInEachUnit(t *testing.T) {
	// The Earth turns once against the stars in 23 h 56 min 4.0905 s (Meeus ch. 12).
	day := 23*time.Hour + 56*time.Minute + 4090500*time.Microsecond
	assert.InDelta(t, 360, sky.SiderealRate.Times(day).Degrees(), 2e-4) // of UT1 against the mean equinox; 0.008 s
	assert.InDelta(t, 15.041067, sky.SiderealRate.DegreesPerHour(), 1e-6)
	assert.InDelta(t, 15.041067/3600, sky.SiderealRate.DegreesPerSecond(), 1e-9)
	assert.Equal(t, "15.041°/h", sky.SiderealRate.String())
	assert.Equal(t, "-0.500°/h", (-0.5 * sky.DegreePerHour).String())
	assert.Equal(t, "-16.0000°", (-16 * sky.Degree).String())
	rapid.Check(t, func(t *rapid.T) {
		rate := sky.Rate(rapid.Float64Range(-1000, 1000).Draw(t, "°/h")) * sky.DegreePerHour
		d := time.Duration(rapid.Int64Range(-1e14, 1e14).Draw(t, "ns"))
		require.InDelta(t, rate.DegreesPerHour()*d.Hours(), rate.Times(d).Degrees(), 1e-7)
		require.InDelta(t, float64(-rate.Times(d)), float64(rate.Times(-d)), 1e-12)
	})
}

// The algebra of vectors, which the whole of the field's turning is made of.
func TestDirectionsAreVectors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyPeerPlace(t).Direction(), anyPeerPlace(t).Direction()
		k := rapid.Float64Range(-3, 3).Draw(t, "k")
		apart := a.Separation(b)
		require.InDelta(t, 1, a.Length(), 1e-15)
		require.InDelta(t, apart.Cos(), a.Dot(b), 1e-12)
		require.InDelta(t, apart.Sin(), a.Cross(b).Length(), 1e-12)
		require.InDelta(t, 0, a.Cross(b).Dot(a), 1e-12, "square to both")
		require.InDelta(t, 0, a.Cross(b).Plus(1, b.Cross(a)).Length(), 1e-15, "the other way round, the other way")
		sum := a.Plus(k, b)
		require.InDelta(t, 1+k*k+2*k*a.Dot(b), sum.Dot(sum), 1e-9, "the law of cosines")
		if sum.Length() > 1e-3 {
			require.InDelta(t, 1, sum.Unit().Length(), 1e-12)
			require.InDelta(t, 0, sum.Unit().Cross(sum).Length(), 1e-12, "the same way")
		}
	})
}

func TestPlacesRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place := anyPeerPlace(t)
		back := place.Direction().OfDate()
		require.InDelta(t, 0, (place.RA - back.RA).Signed().Arcseconds(), 1e-6)
		require.InDelta(t, place.Dec.Arcseconds(), back.Dec.Arcseconds(), 1e-6)
		require.Equal(t, sky.J2000(back), place.Direction().J2000(), "the same numbers in another frame")
		require.InDelta(t, place.Dec.Degrees(), sky.Direction(sky.J2000(place).Direction()).Altitude().Degrees(), 1e-9)
	})
}
