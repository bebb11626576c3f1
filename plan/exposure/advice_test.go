package exposure_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/exposure"
	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// advised returns the advice for the example two hours into the window of a date, with the kit changed.
func advised(date plan.Date, change func(*kit.Kit), m exposure.Moment) []exposure.Advice {
	k := kit.Example()
	change(&k)
	n := plan.NewNight(k, date)
	c := n.Course(k.Targets[0], k.Axis)
	w := c.Windows()[0]
	m.At, m.Until = w.From.Add(2*time.Hour), w.To
	return exposure.Advise(n, c, m)
}

func asItIs(*kit.Kit) {}

func TestAdviceFollowsFromItsParts(t *testing.T) {
	all := advised(moonless(), asItIs, exposure.Moment{})
	require.Len(t, all, 4, "one for each filter")
	k := kit.Example()
	n := plan.NewNight(k, moonless())
	c := n.Course(k.Targets[0], k.Axis)
	altitude := c.Place(c.Windows()[0].From.Add(2 * time.Hour)).Altitude
	for i, a := range all {
		assert.Equal(t, k.Subs.Filters[i], a.Filter)
		require.True(t, a.Sky.OK)
		require.False(t, a.Sky.Value.MoonUp)
		rate := exposure.LightOf(k, a.Filter).Value.PixelElectronsOf(light.Through(a.Filter, k.Site).Moonless(altitude))
		assert.InDelta(t, rate, a.SkyEPerS.Value, 1e-12)
		sub, _ := exposure.ShortestSub(1.5, rate+0.002, 0.05) // the kit's read noise, dark current and share
		assert.Equal(t, sub, a.Shortest.Value)
		assert.Equal(t, a.Filter.Exposure >= sub, a.ReadNoise.Value <= 0.05, "the two verdicts agree")
		assert.InDelta(t, (rate+0.002)*a.Filter.Exposure.Seconds()/20000, a.WellShare.Value, 1e-12)
		assert.Empty(t, a.Lacks())
	}
	// 7.995923e-3 and 3.662108e-3 photons by plan/light/testdata/rates.csv, × 50.26548 cm² × 0.68 × 2.610619 arcsec²,
	// are 0.713496 and 0.326776 electrons; with 0.002 of dark current 2.25/(0.1025 × 0.715496) and the like.
	assert.InDelta(t, 30.680, all[0].ShortestDark.Value.Seconds(), 0.005)
	assert.InDelta(t, 66.767, all[1].ShortestDark.Value.Seconds(), 0.01)
}

func TestTheAirSavesTheStarsALittle(t *testing.T) {
	a := advised(moonless(), asItIs, exposure.Moment{})[0]
	thin := advised(moonless(), func(k *kit.Kit) { k.Site.ExtinctionMagPerAirmass = 0.05 }, exposure.Moment{})[0]
	// 0.13 less for each airmass; the target is a little more than one high.
	assert.InDelta(t, 0.13*1.2, thin.Saturates.Value-a.Saturates.Value, 0.03)
}

func TestTheMoonShortensTheSubsAndDrownsTheTarget(t *testing.T) {
	dark, bright := advised(moonless(), asItIs, exposure.Moment{})[0], advised(fullMoon(), asItIs, exposure.Moment{})[0]
	assert.Less(t, bright.Shortest.Value, dark.Shortest.Value/5)
	assert.Equal(t, dark.ShortestDark, bright.ShortestDark, "a moonless sky is the same in any phase")
	assert.Less(t, bright.Signal.Value.PerArcsec2, dark.Signal.Value.PerArcsec2)
	assert.InDelta(t, 2.5, bright.Sky.Value.Brightening(), 0.5)
	assert.False(t, dark.Sky.Value.MoonUp)
}

func TestAMeasuredStarWidthGoesBeforeTheKits(t *testing.T) {
	kits := advised(moonless(), asItIs, exposure.Moment{})[0]
	sharp := advised(moonless(), asItIs, exposure.Moment{StarWidth: 1.5 * sky.Arcsecond})[0]
	assert.Greater(t, sharp.Saturates.Value, kits.Saturates.Value+1, "a fourth of the area, more than a magnitude")
	silent := advised(moonless(), func(k *kit.Kit) { k.Site.SeeingArcsec = 0 }, exposure.Moment{StarWidth: 3 * sky.Arcsecond})[0]
	// The kit's 3″ are those overhead. The target stands lower: its stars are wider there, and brighter ones fit a pixel,
	// by 2.5·log of the width squared: 0.33 magnitudes for 1.165 times the width, X^0.6 at an airmass of 1.29 (51° up).
	assert.InDelta(t, 0.33, silent.Saturates.Value-kits.Saturates.Value, 0.02)
}

func TestWhatASilentKitTakesAway(t *testing.T) {
	const sub, dark, stars, signal = "sub", "dark", "stars", "signal"
	cases := []struct {
		name, key string
		silence   func(*kit.Kit)
		lost      []string
	}{
		{"no extinction", "site.extinction_mag_per_airmass", func(k *kit.Kit) { k.Site.ExtinctionMagPerAirmass = 0 }, []string{sub, stars, signal}},
		{"no sky", "site.sky_mag_per_arcsec2", func(k *kit.Kit) { k.Site.SkyMagPerArcsec2 = 0 }, []string{sub, dark, stars, signal}},
		{"no read noise", "camera.read_noise_e", func(k *kit.Kit) { k.Camera.ReadNoiseE = 0 }, []string{sub, dark, signal}},
		{"no well", "camera.full_well_e", func(k *kit.Kit) { k.Camera.FullWellE = 0 }, []string{stars}},
		{"no seeing", "site.seeing_arcsec", func(k *kit.Kit) { k.Site.SeeingArcsec = 0 }, []string{stars}},
		{"no band", "subs.filter.bandwidth_nm", func(k *kit.Kit) { k.Subs.Filters[0].BandwidthNM = 0 }, []string{sub, dark, stars, signal}},
		{"no transmission", "optics.transmission", func(k *kit.Kit) { k.Optics.Transmission = 0 }, []string{sub, dark, stars, signal}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			a := advised(moonless(), c.silence, exposure.Moment{})[0]
			var lost []string
			for _, each := range []struct {
				name string
				ok   bool
			}{{sub, a.Shortest.OK}, {dark, a.ShortestDark.OK}, {stars, a.Saturates.OK}, {signal, a.Signal.OK}} {
				if !each.ok {
					lost = append(lost, each.name)
				}
			}
			assert.Equal(t, c.lost, lost)
			assert.Equal(t, []string{c.key}, a.Lacks())
			assert.Positive(t, a.Longest.Run, "the run does not ask for it")
		})
	}
}

func TestAKitThatSaysNothingStillAnswersTheRun(t *testing.T) {
	a := advised(moonless(), func(k *kit.Kit) {
		k.Site.SkyMagPerArcsec2, k.Site.ExtinctionMagPerAirmass, k.Site.SeeingArcsec = 0, 0, 0
		k.Optics.Transmission, k.Camera.QuantumEfficiency, k.Camera.ReadNoiseE, k.Camera.FullWellE = 0, 0, 0, 0
		k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: time.Minute, Count: 10}}
	}, exposure.Moment{})[0]
	assert.Len(t, a.Lacks(), 8)
	assert.Equal(t, []string{"site.sky_mag_per_arcsec2", "site.extinction_mag_per_airmass"}, a.Sky.Lacks)
	assert.Positive(t, a.Longest.Run)
	assert.True(t, a.Longest.Still.OK)
}

func TestATargetThatNothingIsKnownOfHasNoSignalAndLacksNoKey(t *testing.T) {
	a := advised(moonless(), func(k *kit.Kit) { k.Targets[0].Object = catalog.Object{} }, exposure.Moment{})[0]
	assert.False(t, a.Signal.OK)
	assert.False(t, a.MoonTakes.OK)
	assert.Empty(t, a.Lacks())
}

// The Rosette in 20 subs of 300 s through 3 nm of Hα: by hand 700 R are 1.309e-3 photons, less some 0.13 magnitudes of
// air; over 50.27 cm² × 0.68 a square second of arc gives 0.040 electrons a second against 0.004 of sky, and in 6000 s
// some 230 against √(260 + 7 of dark and reading): 14. In V magnitudes it would have come to nothing.
func TestANebulaShowsInItsLine(t *testing.T) {
	rosette := func(k *kit.Kit) {
		k.Targets[0], _ = k.FindTarget("Rosette Nebula")
		k.Subs.Filters = []kit.Filter{{Name: "Ha", Kind: kit.LineFilter, Line: "Hα", CentreNM: 656.28, BandwidthNM: 3, Exposure: 300 * time.Second, Count: 20}}
	}
	a := advised(moonless(), rosette, exposure.Moment{})[0]
	require.True(t, a.Signal.OK)
	assert.InDelta(t, 14, a.Signal.Value.PerArcsec2, 1.5)
	assert.Equal(t, 700.0, a.Signal.Value.Source.Hα())
	full := advised(fullMoon(), rosette, exposure.Moment{})[0]
	assert.InDelta(t, 0.4, full.MoonTakes.Value, 0.25, "most of its worth stays")
}

func TestTheMoonTakesMoreOfStarlightThanOfALine(t *testing.T) {
	galaxy := advised(fullMoon(), func(k *kit.Kit) { k.Targets[0] = k.Targets[1] }, exposure.Moment{})[0]
	require.True(t, galaxy.MoonTakes.OK)
	assert.Greater(t, galaxy.MoonTakes.Value, 0.7)
	dark := advised(moonless(), asItIs, exposure.Moment{})[0]
	assert.Zero(t, dark.MoonTakes.Value)
}
