package plan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/sky"
)

func TestWaitingForAStarToClearTheTrees(t *testing.T) {
	h := newHandmade()
	h.add("Canopus of ours", 0, 50, 200)
	h.add("Riser", 1, 25, 90)
	h.kit.Horizon = skyline(40, 30, 140, 30, 141, 0, 39, 0)
	s := h.sky()
	require.Empty(t, s.Pairs(altaz(50, 150), 0))
	why, none := s.WhyNoPair()
	require.True(t, none)
	require.Len(t, why.Fit, 1)
	assert.Equal(t, []any{1, 1, plan.Obstructed}, []any{why.Up, why.Most, why.By})
	// 5° at 12.76° an hour are 23.5 min; looked at every five.
	require.NotNil(t, why.Later)
	assert.Equal(t, 25*time.Minute, why.Later.At.Sub(h.at))
	require.Len(t, why.Later.Until, 1)
	assert.Equal(t, "Riser", why.Later.Until[0].Star.Name())
	assert.Equal(t, "gum trees", why.Later.Until[0].Obstruction)
	assert.Equal(t, []string{"Canopus of ours", "Riser"}, []string{why.Later.First.Star.Name(), why.Later.Second.Star.Name()})
	_, none = plan.NewStarSky(h.kit, h.frame, h.axis, why.Later.At, h.stars).WhyNoPair()
	assert.False(t, none)
}

func TestSettingsThatWouldHelpAreNamed(t *testing.T) {
	tests := []struct {
		name string
		mag  float64
		alt  float64
		az   float64
		want plan.Easier
	}{
		{"a fainter star", 2.9, 40, 90, plan.Easier{Setting: plan.FainterStars, Magnitude: 3}},
		{"a lower one", 1, 16, 120, plan.Easier{Setting: plan.LowerStars, Angle: 15 * sky.Degree}},
		{"a nearer one", 1, 50, 160, plan.Easier{Setting: plan.NearerStars, Angle: 20 * sky.Degree}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			h := newHandmade()
			h.add("Bright", 0, 50, 200)
			h.add("Other", test.mag, test.alt, test.az)
			why, none := h.sky().WhyNoPair()
			require.True(t, none)
			require.Len(t, why.Easier, 1)
			got := why.Easier[0]
			assert.Equal(t, []string{"Bright", "Other"}, []string{got.First.Star.Name(), got.Second.Star.Name()})
			got.First, got.Second = nil, nil
			assert.Equal(t, test.want, got)
		})
	}
	why, none := newHandmade().sky().WhyNoPair()
	require.True(t, none)
	assert.Equal(t, plan.NoPair{None: true, By: plan.Down}, why, "nothing helps where there are no stars")
}

// What is promised holds: from When on there is a pair, and five minutes before there was none.
func TestWaitingIsAsLongAsItMustBe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, aim := anySky(t)
		why, none := s.WhyNoPair()
		require.Equal(t, none, len(s.Pairs(aim, 1)) == 0)
		if !none {
			return
		}
		require.True(t, why.None)
		if why.Later != nil {
			require.Greater(t, why.Later.At.Sub(s.At), time.Duration(0))
			require.LessOrEqual(t, why.Later.At.Sub(s.At), 3*time.Hour)
			require.NotEmpty(t, skyAt(s, why.Later.At).Pairs(aim, 1), "there is one then")
			require.Empty(t, skyAt(s, why.Later.At.Add(-5*time.Minute)).Pairs(aim, 1), "and none before")
		}
		if s.Sun > sky.SunAtHorizon {
			require.Empty(t, why.Easier, "no star is offered while the Sun is up")
		}
	})
}

// skyAt is the same sky at another instant, made anew.
func skyAt(s *plan.StarSky, at time.Time) *plan.StarSky {
	night := plan.NewNight(s.Kit, plan.DateOf(s.Kit.Site.Place, s.At))
	return night.Stars(s.Kit.Axis, at)
}

// The worst case: the Sun is up for hours, so that all of them are tried.
func BenchmarkWhyNoPair(b *testing.B) {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	s := night.Stars(k.Axis, night.Span.From.Add(2*time.Hour))
	b.ReportAllocs()
	for b.Loop() {
		s.WhyNoPair()
	}
}
