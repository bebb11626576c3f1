package exposure_test

import (
	"math"
	"testing"
	"time"
	_ "time/tzdata" // the zone of the example, on computers without their own table

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/exposure"
	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/sky"
)

// Nights of the example's site: the Moon is a thin crescent before dawn on 5 December 2026 (new on the 9th) and
// full on the 24th.
func moonless() plan.Date { return plan.Date{Year: 2026, Month: time.December, Day: 5} }
func fullMoon() plan.Date { return plan.Date{Year: 2026, Month: time.December, Day: 24} }

func nightOf(date plan.Date) (*plan.Night, time.Time) {
	n := plan.NewNight(kit.Example(), date)
	return n, n.Dark[0].From.Add(n.Dark[0].Length() / 2)
}

func TestASkyWithoutMoonIsThatOfTheKitOverhead(t *testing.T) {
	n, _ := nightOf(moonless())
	overhead := sky.Horizontal{Altitude: 90 * sky.Degree}
	dark := n.Dark[0].From.Add(time.Minute)
	s := exposure.SkyAt(n.Kit.Site, n.Frame, overhead, dark)
	require.True(t, s.OK)
	assert.False(t, s.Value.MoonUp)
	assert.False(t, s.Value.Twilight)
	assert.InDelta(t, 21.6, s.Value.Mag, 1e-9)
	assert.InDelta(t, 0, s.Value.Brightening(), 1e-9)
	low := exposure.SkyAt(n.Kit.Site, n.Frame, sky.Horizontal{Altitude: 30 * sky.Degree}, dark)
	// X(60°) = 1/√(1 − 0.96 × 0.75) = 1.889822; 21.6 − 2.5 log10 1.889822 + 0.18 × 0.889822 = 21.06917, the
	// 2.5 log10 of the paper's 0.92104 per magnitude
	assert.InDelta(t, 21.6-math.Log(1.889822)/0.92104+0.4*0.18*0.889822*math.Ln10/0.92104, low.Value.Dark, 1e-5)
	assert.InDelta(t, 21.069, low.Value.Dark, 0.001)
}

func TestAFullMoonAgainstItsParts(t *testing.T) {
	n, middle := nightOf(fullMoon())
	place := sky.Horizontal{Altitude: 50 * sky.Degree, Azimuth: 200 * sky.Degree}
	s := exposure.SkyAt(n.Kit.Site, n.Frame, place, middle)
	require.True(t, s.OK)
	require.True(t, s.Value.MoonUp)
	moon := n.Frame.Moon(middle)
	assert.Greater(t, moon.Illuminated, 0.98)
	// The phase angle from the elongation, the Sun being 389 times as far as the Moon: 180° less the elongation
	// to within a sixth of a degree.
	sun := n.Frame.Sun(middle).Direction()
	phase := 180*sky.Degree - moon.Direction().Separation(sun)
	moonlight := light.Moonlight{PhaseAngle: phase, MoonAltitude: moon.Altitude, Altitude: place.Altitude,
		Separation: moon.Direction().Separation(place.Direction()), ExtinctionMagPerAirmass: 0.18}
	want := light.MagPerArcsec2(light.Nanolamberts(s.Value.Dark) + moonlight.Nanolamberts())
	assert.InDelta(t, want, s.Value.Mag, 0.01) // 0.17° × 0.026 is 0.004
	assert.Greater(t, s.Value.Brightening(), 1.5)
}

func TestTheSkyBrightensTowardsTheMoon(t *testing.T) {
	n, middle := nightOf(fullMoon())
	moon := n.Frame.Moon(middle)
	before := math.Inf(-1)
	for _, away := range []float64{2, 5, 15, 30, 60, 90} {
		// Along the Moon's altitude, so that the air stays the same.
		place := sky.Horizontal{Altitude: moon.Altitude, Azimuth: moon.Azimuth + sky.Angle(away)*sky.Degree}
		s := exposure.SkyAt(n.Kit.Site, n.Frame, place, middle)
		assert.Greater(t, s.Value.Mag, before, "%v° of azimuth from the Moon", away)
		before = s.Value.Mag
	}
}

func TestSkyNamesWhatItLacks(t *testing.T) {
	n, middle := nightOf(moonless())
	up := sky.Horizontal{Altitude: 50 * sky.Degree}
	site := n.Kit.Site
	site.ExtinctionMagPerAirmass = 0
	assert.Equal(t, exposure.Figure[exposure.Sky]{Lacks: []string{"site.extinction_mag_per_airmass"}}, exposure.SkyAt(site, n.Frame, up, middle))
	down := exposure.SkyAt(n.Kit.Site, n.Frame, sky.Horizontal{Altitude: -1 * sky.Degree}, middle)
	assert.False(t, down.OK)
	assert.Empty(t, down.Lacks, "no key of the kit would help")
	dusk := exposure.SkyAt(n.Kit.Site, n.Frame, up, n.Dark[0].From.Add(-10*time.Minute))
	assert.True(t, dusk.Value.Twilight)
}
