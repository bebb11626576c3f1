package plan_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

func TestCriticalFocusZone(t *testing.T) {
	assert.InDelta(t, 96.6, plan.CriticalFocusZoneUM(6, 0.55), 0.05) // the project's handbook, section 8; its last digit
	assert.InDelta(t, 4*96.624, plan.CriticalFocusZoneUM(12, 0.55), 1e-9, "it grows with the square of the focal ratio")
}

// 450 mm of aluminium at 23·10⁻⁶/K are 10.35 µm for each kelvin; the example's f/6 has half a zone of
// 48.3 µm, so that 4.67 K use it up.
func TestTheTubeUsesUpTheFocus(t *testing.T) {
	tube := plan.MainTelescope(exampleKit().Optics)
	assert.InDelta(t, -51.75, tube.DriftUM(18, 13), 1e-9, "shorter when it cools")
	assert.InDelta(t, 51.75/48.312, tube.FocusUsed(18, 13), 1e-9)
	assert.InDelta(t, tube.FocusUsed(18, 13), tube.FocusUsed(18, 23), 1e-9, "warming counts alike")
	assert.Zero(t, tube.FocusUsed(18, 18))
	r, ok := tube.RefocusAt(18)
	require.True(t, ok)
	assert.InDelta(t, 48.312/10.35, r.ChangeK, 1e-9)
	assert.InDelta(t, 1, tube.FocusUsed(18, r.BelowC), 1e-9)
	assert.InDelta(t, 1, tube.FocusUsed(18, r.AboveC), 1e-9)
	for _, m := range kit.Materials() {
		tube.TubeExpansionPerK = m.ExpansionPerK
		lasts, ok := tube.RefocusAt(18)
		require.True(t, ok)
		assert.InDelta(t, 23e-6/m.ExpansionPerK*r.ChangeK, lasts.ChangeK, 1e-9, m.Name)
	}
	tube.TubeExpansionPerK = 0
	_, ok = tube.RefocusAt(18)
	assert.False(t, ok, "a tube that does not grow needs no focusing")
}

func TestGuideTelescope(t *testing.T) {
	guide, ok := plan.GuideTelescope(exampleKit().Optics)
	require.True(t, ok)
	assert.InDelta(t, 4.88*0.55*16, guide.ZoneUM(), 1e-9) // f/4
	_, ok = plan.GuideTelescope(kit.Optics{ApertureMM: 80, FocalLengthMM: 480})
	assert.False(t, ok)
}

func TestFocusMagnitudesFollowTheAperture(t *testing.T) {
	for _, c := range []struct{ aperture, brightest, faintest float64 }{
		{80, 0, 3.5},        // the project's handbook, section 8
		{160, 1.505, 5},     // 5·log₁₀ 2 = 1.505; the faintest held at 5
		{40, -1.505, 1.995}, // and the other way
	} {
		b, f := plan.FocusMagnitudes(c.aperture)
		assert.InDelta(t, c.brightest, b, 0.001, "%v mm", c.aperture)
		assert.InDelta(t, c.faintest, f, 0.001, "%v mm", c.aperture)
	}
}

func focusSky() (*handmade, sky.Direction) {
	h := newHandmade()
	h.add("Blazing", -1, 50, 182)  // beside the target, too bright
	h.add("Alignment", 1, 50, 220) // 24° away
	h.add("Low", 1.5, 30, 181)     // too low for focusing
	h.add("Leaving", 2, 36, 270)   // under 35° in 5 min
	h.add("Nearer", 3, 45, 175)    // nearest of all that suit
	h.add("Faint", 4, 50, 180)     // at the target, too faint
	return h, altaz(50, 180)
}

func TestTheFocusStarIsNearTheTargetAndSuits(t *testing.T) {
	h, aim := focusSky()
	stars, why := h.sky().FocusStars(aim, nil, 0, plan.MainTelescope(h.kit.Optics))
	require.Equal(t, plan.NoFocus{}, why)
	var got []string
	for _, f := range stars {
		got = append(got, f.Star.Name())
	}
	assert.Equal(t, []string{"Nearer", "Alignment"}, got)
	assert.InDelta(t, 6, stars[0].ToTarget.Degrees(), 0.5)
}

func TestTheSecondAlignmentStarIsPreferred(t *testing.T) {
	h, aim := focusSky()
	s := h.sky()
	pair := plan.Pair{First: s.Fit[0], Second: s.Fit[1]}
	require.Equal(t, "Alignment", pair.Second.Star.Name())
	stars, _ := s.FocusStars(aim, &pair, 1, plan.MainTelescope(h.kit.Optics))
	require.Len(t, stars, 1)
	assert.Equal(t, "Alignment", stars[0].Star.Name())
	assert.True(t, stars[0].SecondOfPair)
	pair.Second = s.Fit[0] // Blazing does not suit
	stars, _ = s.FocusStars(aim, &pair, 1, plan.MainTelescope(h.kit.Optics))
	assert.Equal(t, "Nearer", stars[0].Star.Name())
}

func TestWhyThereIsNoFocusStar(t *testing.T) {
	h := newHandmade()
	h.add("Low", 1, 30, 180)
	_, why := h.sky().FocusStars(altaz(50, 180), nil, 0, plan.MainTelescope(h.kit.Optics))
	assert.Equal(t, plan.NoFocus{Why: plan.NoneStands, Faintest: 3.5, Lowest: 35 * sky.Degree, Highest: 75 * sky.Degree, Shown: why.Shown}, why)
	_, why = h.sky().FocusStars(altaz(50, 180), nil, 0, plan.Telescope{ApertureMM: 20}, plan.Telescope{ApertureMM: 400})
	assert.Equal(t, plan.NoneForBoth, why.Why)

	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	_, why = night.Stars(k.Axis, night.Twilight.Sunset.At.Add(-time.Hour)).FocusStars(altaz(50, 180), nil, 0, plan.MainTelescope(k.Optics))
	assert.Equal(t, plan.SunIsUp, why.Why)
	_, why = night.Stars(k.Axis, night.Twilight.Sunset.At.Add(5*time.Minute)).FocusStars(altaz(50, 180), nil, 0, plan.MainTelescope(k.Optics))
	assert.Equal(t, plan.SkyBright, why.Why)
}

// A pair's second is flagged as focus star exactly when FocusStars finds it too, and every focus star keeps
// what was promised.
func TestFocusStarsKeepTheirConditions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, aim := anySky(t)
		main := plan.MainTelescope(s.Kit.Optics)
		brightest, faintest := plan.FocusMagnitudes(main.ApertureMM)
		for _, p := range s.Pairs(aim, 3) {
			stars, why := s.FocusStars(aim, &p, 0, main)
			require.Equal(t, len(stars) == 0, why.Why != plan.SomeFocus)
			found := false
			for i, f := range stars {
				found = found || f.SecondOfPair
				require.True(t, f.Star.Magnitude.Value >= brightest && f.Star.Magnitude.Value <= math.Min(faintest, s.FaintestMag))
				require.True(t, f.Place.Altitude >= 35*sky.Degree && f.AboutAxis <= 75*sky.Degree)
				require.False(t, f.Leaves.OK && f.Leaves.At.Before(s.At.Add(s.Kit.Stars.StayFine)))
				require.True(t, i < 2 || stars[i-1].ToTarget <= f.ToTarget)
			}
			require.Equal(t, p.SecondFocuses, found, p.Second.Star.Name())
		}
	})
}

func BenchmarkFocusStars(b *testing.B) {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	s := night.Stars(k.Axis, night.Twilight.AstronomicalDusk.At.Add(3*time.Hour))
	b.ReportAllocs()
	for b.Loop() {
		s.FocusStars(altaz(50, 180), nil, 10, plan.MainTelescope(k.Optics))
	}
}
