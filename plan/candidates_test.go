package plan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// only returns the sky of the one star that was added, which must be fit or not.
func (h *handmade) only(t *testing.T) (*plan.Candidate, *plan.Rejected) {
	t.Helper()
	s := h.sky()
	require.Equal(t, 1, len(s.Fit)+len(s.Unfit))
	if len(s.Fit) == 1 {
		return s.Fit[0], nil
	}
	return nil, &s.Unfit[0]
}

func skyline(points ...float64) kit.Horizon {
	var all []kit.HorizonPoint
	for i := 0; i+1 < len(points); i += 2 {
		all = append(all, kit.HorizonPoint{Azimuth: sky.Angle(points[i]) * sky.Degree, Altitude: sky.Angle(points[i+1]) * sky.Degree, Name: "gum trees"})
	}
	return kit.NewHorizon(all)
}

// At azimuth 90° a star climbs by 15.04°·cos φ = 12.76° an hour, at 270° it sinks by as much.
func TestEachConditionKeepsAStarOut(t *testing.T) {
	tests := []struct {
		name    string
		alt, az float64
		change  func(*handmade)
		want    plan.Unfit
		within  time.Duration // from now; 0 where it is out already
	}{
		{"below the horizon", -5, 100, nil, plan.Down, 0},
		{"too low", 15, 90, nil, plan.TooLow, 0},
		{"too high", 80, 90, nil, plan.TooHigh, 0},
		{"in a keyhole wider than the window", 70, 270, func(h *handmade) { h.kit.Mount.Ceiling = 65 * sky.Degree }, plan.TooHigh, 0},
		{"high by the zenith, low about a leaning axis", 23, 90,
			func(h *handmade) { h.axis = kit.Axis{Tilt: 5 * sky.Degree, Toward: 270 * sky.Degree} }, plan.TooLow, 0},
		{"behind the trees", 25, 110, func(h *handmade) { h.kit.Horizon = skyline(100, 30, 120, 30, 130, 0, 90, 0) }, plan.Obstructed, 0},
		{"sinking under the limit in 14 min", 23, 270, nil, plan.TooLow, 14 * time.Minute},
		{"climbing past the limit in 9 min", 73, 90, nil, plan.TooHigh, 9 * time.Minute},
		{"going behind the trees in 14 min", 28, 270, func(h *handmade) { h.kit.Horizon = skyline(200, 25, 340, 25, 341, 0, 199, 0) }, plan.Obstructed, 14 * time.Minute},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			h := newHandmade()
			if test.change != nil {
				test.change(h)
			}
			h.add("Star", 1, test.alt, test.az)
			_, r := h.only(t)
			require.NotNil(t, r, "it must be out")
			assert.Equal(t, test.want, r.Unfit)
			assert.Equal(t, test.within, r.In.Truncate(time.Minute))
			if test.want == plan.Obstructed {
				assert.Equal(t, "gum trees", r.Obstruction)
			}
			assert.InDelta(t, test.alt, r.Place.Altitude.Degrees(), 0.001)
			assert.Equal(t, test.az < 180, r.Rising)
		})
	}
}

// Both ends of the 20 minutes are clear, and a chimney of a tenth of a degree stands between.
func TestAChimneyInBetweenIsFound(t *testing.T) {
	h := newHandmade()
	h.add("Star", 1, 40, 10)
	c, r := h.only(t)
	require.Nil(t, r, "clear without it")
	start := c.Place.Azimuth.Degrees()
	later := h.frame.Horizontal(h.frame.Fix(c.Star.Star), h.at.Add(7*time.Minute+23*time.Second)).Azimuth.Degrees()
	require.Less(t, later-start, -1.0) // in the north it moves westward, azimuth falling
	h.kit.Horizon = skyline(later-0.05, 0, later, 60, later+0.05, 0, 0, 0)
	_, r = h.only(t)
	require.NotNil(t, r, "the chimney hides it")
	assert.Equal(t, plan.Obstructed, r.Unfit)
	assert.Equal(t, 7*time.Minute, r.In.Truncate(time.Minute))
	assert.Equal(t, "gum trees", r.Obstruction)
}

func TestTheKitsTimeIsHowLongAStarMustStay(t *testing.T) {
	h := newHandmade()
	h.add("Star", 1, 23, 270)
	_, r := h.only(t)
	require.NotNil(t, r)
	h.kit.Stars.StayFine = 10 * time.Minute
	c, _ := h.only(t)
	require.NotNil(t, c)
	// 3° at 12.76° an hour, and 4″ more for the curve of its way.
	assert.InDelta(t, 3/12.76*60, c.Leaves.At.Sub(h.at).Minutes(), 0.15)
	assert.Equal(t, plan.TooLow, c.Leaves.By)
}

func TestTheMoonDrownsItsNeighbours(t *testing.T) {
	h := newHandmade()
	h.at = time.Date(2026, 12, 23, 15, 0, 0, 0, time.UTC) // nearly full, high
	h.frame = plan.NewNight(h.kit, plan.Date{Year: 2026, Month: 12, Day: 23}).Frame
	moon := h.frame.Moon(h.at)
	require.Greater(t, moon.Altitude, 25*sky.Degree)
	h.add("Star", 1, moon.Altitude.Degrees()+8, moon.Azimuth.Degrees())
	_, r := h.only(t)
	require.NotNil(t, r)
	assert.Equal(t, plan.NearMoon, r.Unfit)
	assert.InDelta(t, 8, r.Apart.Degrees(), 0.5)
	h.kit.Stars.MoonGlare = 5 * sky.Degree
	_, r = h.only(t)
	assert.Nil(t, r, "the glare is a setting")
}

func TestNeighboursAndTwilightKeepStarsOut(t *testing.T) {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	reasons := func(at time.Time) map[string]plan.Rejected {
		all := map[string]plan.Rejected{}
		for _, r := range night.Stars(k.Axis, at).Unfit {
			all[r.Star.Name()] = r
		}
		return all
	}
	alnilam := reasons(night.Twilight.AstronomicalDusk.At.Add(3 * time.Hour))["Alnilam"]
	assert.Equal(t, plan.Confusable, alnilam.Unfit)
	assert.Equal(t, "Alnitak", alnilam.Alike)
	assert.InDelta(t, 1.36, alnilam.Apart.Degrees(), 0.01) // ε and ζ Ori
	day := reasons(night.Twilight.Sunset.At.Add(-time.Hour))
	assert.Equal(t, plan.NearSun, day["Antares"].Unfit)
	assert.Equal(t, plan.TooFaint, day["Achernar"].Unfit)
	assert.Positive(t, float64(day["Achernar"].Sun))
	dusk := reasons(night.Twilight.CivilDusk.At)["Fomalhaut"]
	assert.Equal(t, plan.TooFaint, dusk.Unfit)
	assert.InDelta(t, -6, dusk.Sun.Degrees(), 0.1)
}

// The Sun is refused before anything else, whatever the settings; by night it is nothing.
func TestNoStarNearTheSunWhileItIsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, _ := anySky(t)
		frame := sky.NewFrame(s.Kit.Site.Place, s.At, s.Kit.Site.DUT1)
		end := s.At.Add(s.Kit.Stars.StayFine)
		for _, at := range []time.Time{s.At, end} {
			sun := frame.Sun(at)
			if sun.Altitude <= sky.SunAtHorizon {
				continue
			}
			for _, c := range s.Fit {
				d := frame.Direction(frame.Fix(c.Star.Star), at)
				require.Greater(t, d.Separation(sun.Direction()).Degrees(), 29.9, c.Star.Name())
			}
		}
	})
}

// Every fit star keeps every condition at each quarter minute of the time that it must stay fit, and each
// that is out for its place breaks the condition named, then and there.
func TestFitStarsStayFitAndUnfitOnesAreNot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, _ := anySky(t)
		frame := sky.NewFrame(s.Kit.Site.Place, s.At, s.Kit.Site.DUT1)
		const slack = 0.01 * sky.Degree // two frames, and a star that leaves between two samples
		axis := sky.MountAxis(s.Kit.Axis.Tilt, s.Kit.Axis.Toward)
		highest := min(s.Kit.Stars.Highest, s.Kit.Mount.Ceiling)
		look := func(c plan.Candidate, at time.Time) (about, clear sky.Angle) {
			d := frame.Direction(frame.Fix(c.Star.Star), at)
			p := d.Horizontal()
			air := sky.Air{PressureHPa: s.Kit.Site.PressureHPa, TemperatureC: s.Kit.Site.TemperatureC}
			return 90*sky.Degree - d.Separation(axis), p.Altitude + air.Refraction(p.Altitude) - s.Kit.Horizon.At(p.Azimuth)
		}
		for _, c := range s.Fit {
			require.LessOrEqual(t, c.Star.Magnitude.Value, s.FaintestMag)
			for at := s.At; !at.After(s.At.Add(s.Kit.Stars.StayFine)); at = at.Add(15 * time.Second) {
				about, clear := look(*c, at)
				require.Greater(t, clear, -slack, "%s at %v", c.Star.Name(), at)
				require.True(t, about > s.Kit.Stars.Lowest-slack && about < highest+slack, "%s at %v: %v", c.Star.Name(), at, about)
			}
		}
		for _, r := range s.Unfit {
			about, clear := look(r.Candidate, s.At.Add(r.In))
			switch r.Unfit {
			case plan.Obstructed:
				require.Less(t, clear, slack, r.Star.Name())
			case plan.TooLow:
				require.Less(t, about, s.Kit.Stars.Lowest+slack, r.Star.Name())
			case plan.TooHigh:
				require.Greater(t, about, highest-slack, r.Star.Name())
			}
			require.LessOrEqual(t, r.In, s.Kit.Stars.StayFine)
		}
	})
}

// The first and last steps by the Explanatory Supplement (civil twilight, section 9.3) and the definition of
// astronomical twilight; the others as chosen.
func TestFaintestMagInTwilight(t *testing.T) {
	for sun, want := range map[float64]float64{20: -1.5, -0.8: -1.5, -6: 1, -7.5: 1.5, -9: 2, -12: 3.5, -15: 5, -18: 6.5, -60: 6.5} {
		assert.InDelta(t, want, plan.FaintestMagInTwilight(sky.Angle(sun)*sky.Degree), 1e-9, "Sun at %v°", sun)
	}
	for sun := -20.0; sun < 2; sun += 0.1 {
		assert.GreaterOrEqual(t, plan.FaintestMagInTwilight(sky.Angle(sun)*sky.Degree), plan.FaintestMagInTwilight(sky.Angle(sun+0.1)*sky.Degree), "darker shows more")
	}
}
