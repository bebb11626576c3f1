package card_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/card"
	"duskhand/plan/exposure"
	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

func night(change func(*kit.Kit)) *plan.Night {
	k := kit.Example()
	change(&k)
	return plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
}

func none(*kit.Kit) {}

func TestPlacesInBothEpochs(t *testing.T) {
	n := night(none)
	achernar, err := catalog.Find("Achernar")
	require.NoError(t, err)
	c := card.Of(n, n.Twilight.NauticalDusk.At, []catalog.Object{achernar}, n.Kit.Targets, n.Kit.Axis)
	require.Len(t, c.Stars, 1)
	// Annual precession at Achernar 2.23 s and 18.3″ (Meeus eq. 21.1: m + n sin α tan δ and n cos α), for 26.9
	// years; nutation and aberration add up to 30″.
	star := c.Stars[0]
	assert.InDelta(t, 2.23*15*26.9, (star.OfDate.RA - star.J2000.RA).Arcseconds(), 60)
	assert.InDelta(t, 18.3*26.9, (star.OfDate.Dec - star.J2000.Dec).Arcseconds(), 30)
	require.Len(t, c.Targets, len(n.Kit.Targets))
	first := c.Targets[0]
	require.True(t, first.Any)
	assert.InDelta(t, -16, first.Run.StartAngle.Degrees(), 0.05, "as the plan has it")
	assert.Equal(t, plan.MinLimit, first.End)
	assert.True(t, c.SunSets.OK)
	// cos A = sin δ/cos φ on the horizon (Meeus ch. 15 by H), δ = −22.4°: 243.3°; at −50′ a little less.
	assert.InDelta(t, 242.8, c.SunSets.Azimuth.Degrees(), 0.4)
}

func TestThePoleStarChecksTheSite(t *testing.T) {
	south := card.Of(night(none), night(none).Span.From, nil, nil, kit.Axis{})
	assert.Contains(t, south.Pole.Name, "Polaris Australis", "σ Octantis")
	assert.InDelta(t, 31.95, south.Pole.Place.Altitude.Degrees(), 1.2)
	n := night(func(k *kit.Kit) { k.Site.Place.Latitude = 52 * sky.Degree })
	north := card.Of(n, n.Span.From, nil, nil, kit.Axis{})
	assert.Equal(t, "Polaris", north.Pole.Name)
	assert.InDelta(t, 52, north.Pole.Place.Altitude.Degrees(), 0.7)
}

func TestWhatAMinuteOfTheClockCosts(t *testing.T) {
	assert.InDelta(t, 15.04, card.ClockCost(0).Arcminutes(), 0.005, "the Earth's turn")
	assert.InDelta(t, 7.52, card.ClockCost(-60*sky.Degree).Arcminutes(), 0.005)
}

// The table of Patat and others (2006), V: 11.84 at −5°, 1.518 a degree there, and their curve at −10° and −15°.
func TestTheTwilightSkyOverhead(t *testing.T) {
	for sun, want := range map[float64]float64{-5: 11.84, -10: 11.84 + 5*1.518 - 25*0.057, -15: 11.84 + 15.18 - 5.7, 0: 5.84} {
		assert.InDelta(t, want, light.TwilightMagPerArcsec2(sky.Angle(sun)*sky.Degree), 1e-9)
	}
	for sun := 0.0; sun > -14.8; sun -= 0.1 {
		assert.Less(t, light.TwilightMagPerArcsec2(sky.Angle(sun)*sky.Degree), light.TwilightMagPerArcsec2(sky.Angle(sun-0.1)*sky.Degree),
			"it grows dark as the Sun sinks, %g", sun)
	}
}

func TestFlatsGoFromTheNarrowFilterToTheWideOneAtDusk(t *testing.T) {
	n := night(func(k *kit.Kit) {
		k.Subs.Filters = append(k.Subs.Filters, kit.Filter{Name: "Hα", Exposure: time.Minute, Count: 1, BandwidthNM: 7})
	})
	f := card.FlatsOf(n)
	require.Empty(t, f.Lacks)
	var evening, morning []string
	for i := range f.Evening {
		evening, morning = append(evening, f.Evening[i].Filter), append(morning, f.Morning[i].Filter)
	}
	assert.Equal(t, []string{"Hα", "R", "G", "B", "L"}, evening)
	assert.Equal(t, []string{"L", "B", "G", "R", "Hα"}, morning)
	for _, times := range [][]card.FlatTime{f.Evening, f.Morning} {
		for i, ft := range times {
			require.True(t, ft.From.OK && ft.To.OK, ft.Filter)
			assert.True(t, ft.From.At.Before(ft.To.At), ft.Filter)
			if i > 0 {
				assert.False(t, ft.From.At.Before(times[i-1].From.At), "in order: %s", ft.Filter)
			}
		}
	}
	last := f.Evening[4] // L: half the well in 1 s at the start and in 15 s at the end
	gathers := exposure.LightOf(n.Kit, n.Kit.Subs.Filters[0])
	takes := func(at time.Time) float64 {
		return n.Kit.Camera.FullWellE / 2 * gathers.Value.PixelsPerArcsec2() / gathers.Value.StarElectronsPerS(light.TwilightMagPerArcsec2(n.Frame.Sun(at).Altitude))
	}
	assert.InDelta(t, 1, takes(last.From.At), 0.01)
	assert.InDelta(t, 15, takes(last.To.At), 0.15)
}

func TestFlatsSayWhatTheKitLacks(t *testing.T) {
	f := card.FlatsOf(night(func(k *kit.Kit) { k.Camera.FullWellE, k.Camera.QuantumEfficiency = 0, 0 }))
	assert.Equal(t, []string{"camera.quantum_efficiency", "camera.full_well_e"}, f.Lacks)
	assert.False(t, f.Evening[0].From.OK)
	assert.Len(t, f.Evening, 4, "the order is known all the same")
}

func TestASunThatNeverSetsGivesNoFlats(t *testing.T) {
	n := plan.NewNight(night(func(k *kit.Kit) { k.Site.Place.Latitude = 75 * sky.Degree }).Kit, plan.Date{Year: 2026, Month: time.June, Day: 20})
	c := card.Of(n, n.Span.From, nil, nil, kit.Axis{})
	assert.False(t, c.SunSets.OK)
	assert.False(t, c.Flats.Evening[0].From.OK)
}

// The example's filters L, R, G, B with no word of how much each lets through: names tell which takes the most light.
func TestTheOrderOfFlatsIsKnownByTheNamesOfFilters(t *testing.T) {
	f := card.FlatsOf(night(func(k *kit.Kit) {
		for i := range k.Subs.Filters {
			k.Subs.Filters[i].BandwidthNM = 0
		}
	}))
	assert.Contains(t, f.Lacks, "subs.filter.bandwidth_nm")
	assert.Equal(t, "L", f.Evening[len(f.Evening)-1].Filter, "it needs the least light")
	assert.Equal(t, "L", f.Morning[0].Filter)
}
