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
	assert.Equal(t, "Only Canopus of ours is fit now; the one other that is up is behind the skyline.", why.Why)
	// 5° at 12.76° an hour are 23.5 min; looked at every five.
	require.True(t, why.When.OK)
	assert.Equal(t, 25*time.Minute, why.When.At.Sub(h.at))
	assert.Equal(t, "In 25 min Riser clears the gum trees: then Canopus of ours and Riser will do.", why.Wait)
	_, none = plan.NewStarSky(h.kit, h.frame, h.axis, why.When.At, h.stars).WhyNoPair()
	assert.False(t, none)
}

func TestSettingsThatWouldHelpAreNamed(t *testing.T) {
	tests := []struct {
		name string
		mag  float64
		alt  float64
		az   float64
		want string
	}{
		{"a fainter star", 2.9, 40, 90, "With stars to magnitude 3.0 (stars.faintest_mag), Bright and Other would do now."},
		{"a lower one", 1, 16, 120, "With stars down to 15° (stars.lowest_deg), Bright and Other would do now."},
		{"a nearer one", 1, 50, 160, "With stars as near as 20° to each other (stars.nearest_deg), Bright and Other would do now."},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			h := newHandmade()
			h.add("Bright", 0, 50, 200)
			h.add("Other", test.mag, test.alt, test.az)
			why, none := h.sky().WhyNoPair()
			require.True(t, none)
			assert.Contains(t, why.Helps, test.want)
			assert.Contains(t, why.Text(), test.want)
		})
	}
	why, none := newHandmade().sky().WhyNoPair()
	require.True(t, none)
	assert.Equal(t, plan.NoPair{Why: "No star to magnitude 2.5 is fit now."}, why, "nothing helps where there are no stars")
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
		require.NotEmpty(t, why.Why)
		require.Equal(t, why.When.OK, why.Wait != "")
		if why.When.OK {
			require.Greater(t, why.When.At.Sub(s.At), time.Duration(0))
			require.LessOrEqual(t, why.When.At.Sub(s.At), 3*time.Hour)
			require.NotEmpty(t, skyAt(s, why.When.At).Pairs(aim, 1), "there is one then")
			require.Empty(t, skyAt(s, why.When.At.Add(-5*time.Minute)).Pairs(aim, 1), "and none before")
		}
		if s.Sun > sky.SunAtHorizon {
			require.Empty(t, why.Helps, "no star is offered while the Sun is up")
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
