package survey_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/checklist/subs/turning"
	"duskhand/plan"
	"duskhand/sky"
)

// lineUp lines up n lights and returns their places and the groups.
func (n *night) lineUp(lights int, known bool, change func(i int, s *simulate.Shot, l *survey.Light)) (places []survey.Place, groups []survey.Group) {
	var line survey.Lineup
	for i := range lights {
		s := n.shot(i)
		l := survey.Light{Start: s.Start, Exposure: s.Exposure, Header: subs.Header{Object: "NGC 2070", Width: 1000, Height: 700, BinX: 1, BinY: 1}}
		if known {
			l.Course = n.course
		}
		if change != nil {
			change(i, &s, &l)
		}
		if l.Stars == nil {
			l.Stars = n.field.Seen(s)
		}
		before, any := line.Group()
		next, place := line.Next(l)
		if place.New && any {
			groups = append(groups, before)
		}
		line = next
		places = append(places, place)
	}
	last, _ := line.Group()
	return places, append(groups, last)
}

func TestGroups(t *testing.T) {
	n := newNight(t, 12, nil)
	groupsOf := func(known bool, change func(i int, s *simulate.Shot, l *survey.Light)) (lights []int, why survey.Why) {
		places, groups := n.lineUp(8, known, change)
		for _, g := range groups {
			lights = append(lights, g.Lights)
		}
		for _, p := range places {
			if p.New && p.Group == 1 {
				why = p.Why
			}
		}
		return lights, why
	}
	turned := func(by sky.Angle) func(i int, s *simulate.Shot, _ *survey.Light) {
		return func(i int, s *simulate.Shot, _ *survey.Light) {
			if i >= 5 {
				s.Turned = func(time.Time) sky.Angle { return by }
			}
		}
	}
	k := n.kit
	other := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5}).Course(k.Targets[1], k.Axis)
	for _, test := range []struct {
		name   string
		known  bool
		change func(i int, s *simulate.Shot, l *survey.Light)
		want   []int
		why    survey.Why
	}{
		{"one framing", true, nil, []int{8}, ""},
		{"a rewind", true, turned(-28 * sky.Degree), []int{5, 3}, survey.CameraTurned},
		{"a rewind of a target that nobody knows", false, turned(-28 * sky.Degree), []int{5, 3}, survey.CameraTurned},
		{"half a turn", true, turned(180 * sky.Degree), []int{5, 3}, survey.CameraTurned},
		{"the derotator off is no rewind", true, func(_ int, s *simulate.Shot, _ *survey.Light) { s.Turned = simulate.Off(n.course, n.from) }, []int{8}, ""},
		{"nor is one that turns the wrong way", true, func(_ int, s *simulate.Shot, _ *survey.Light) { s.Turned = simulate.Reversed(n.course, n.from) }, []int{8}, ""},
		{"another object", true, func(i int, _ *simulate.Shot, l *survey.Light) {
			if i >= 4 {
				l.Header.Object, l.Course = "NGC 1365", other
			}
		}, []int{4, 4}, survey.OtherObject},
		{"binned", true, func(i int, _ *simulate.Shot, l *survey.Light) {
			if i >= 6 {
				l.Header.BinX = 2
			}
		}, []int{6, 2}, survey.OtherSize},
		{"the next night", false, func(i int, _ *simulate.Shot, l *survey.Light) {
			if i >= 3 {
				l.Start = l.Start.Add(24 * time.Hour)
			}
		}, []int{3, 5}, survey.HoursLater},
		{"a cloudy light", true, func(i int, _ *simulate.Shot, l *survey.Light) {
			if i == 3 {
				l.Stars = []subs.Star{}
			}
		}, []int{8}, ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			got, why := groupsOf(test.known, test.change)
			assert.Equal(t, test.want, got)
			assert.Equal(t, test.why, why)
		})
	}
}

// The line through a group's angles is the rate at which the camera turned, with an honest error.
func TestRateOfAGroup(t *testing.T) {
	n := newNight(t, 13, nil)
	rate := 1.25 * sky.DegreePerHour
	places, groups := n.lineUp(10, false, func(_ int, s *simulate.Shot, _ *survey.Light) { s.Turned = simulate.Slow(rate, n.from) })
	g := groups[0]
	t.Logf("%v ± %v", g.Rate, g.RateError)
	assert.InDelta(t, rate.DegreesPerHour(), g.Rate.DegreesPerHour(), 4*g.RateError.DegreesPerHour())
	assert.Less(t, g.RateError.DegreesPerHour(), 0.02)
	assert.InDelta(t, rate.Times(9*cadence).Degrees(), places[9].Turned.Degrees(), 0.01)
	_, ok := g.Turning()
	assert.False(t, ok, "without a course there is nothing to hold it against")

	places, groups = n.lineUp(6, true, func(i int, s *simulate.Shot, l *survey.Light) {
		s.Turned = simulate.Off(n.course, n.from)
		if i == 0 {
			l.Stars = []subs.Star{}
		}
	})
	assert.False(t, places[0].Compared)
	assert.Equal(t, survey.NotCompared, places[0].Why)
	assert.Contains(t, places[0].Verdict.Why, "no star")
	assert.InDelta(t, groups[0].Predicted.DegreesPerHour(), groups[0].Rate.DegreesPerHour(), 0.1)
	said, ok := groups[0].Turning()
	assert.True(t, ok)
	assert.Equal(t, string(turning.Off), said.Kind)
	assert.Equal(t, n.shot(3).Start, groups[0].AlarmAt, "the first that can be compared is the second light, the second bad one the fourth")
}

// A group's rate is that since its angles last broke, not of one line through the break; a smooth bend is none.
func TestRateOfAGroupSinceItsBreak(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(n *night, i int, s *simulate.Shot)
		since  int // light
	}{
		{"nothing", func(*night, int, *simulate.Shot) {}, 0},
		{"a slip", func(_ *night, i int, s *simulate.Shot) {
			if i >= 7 {
				s.Turned = func(time.Time) sky.Angle { return 0.5 * sky.Degree }
			}
		}, 7},
		{"the derotator put on", func(n *night, i int, s *simulate.Shot) {
			on := n.shot(6).Start.Add(-10 * time.Second)
			s.Turned = func(t time.Time) sky.Angle {
				if t.After(on) {
					t = on
				}
				return simulate.Off(n.course, n.from)(t)
			}
		}, 6},
		{"off all the while, bending as χ does", func(n *night, _ int, s *simulate.Shot) { s.Turned = simulate.Off(n.course, n.from) }, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := newNight(t, 21, nil)
			_, groups := n.lineUp(14, true, func(i int, s *simulate.Shot, _ *survey.Light) { c.change(n, i, s) })
			g := groups[0]
			t.Logf("%.3f ± %.3f°/h since %s", g.Rate.DegreesPerHour(), g.RateError.DegreesPerHour(), g.Since.Sub(g.From))
			since := n.shot(c.since).Start.Add(exposure / 2)
			assert.InDelta(t, 0, g.Since.Sub(since).Seconds(), cadence.Seconds(), "the light itself or the next: the turn may lie within one")
			if c.name != "off all the while, bending as χ does" {
				assert.InDelta(t, 0, g.Rate.DegreesPerHour(), 4*g.RateError.DegreesPerHour())
			}
		})
	}
}

// One object under many names, as camera programs write them, is one group: by the target that each name means, or
// where that is not known by the name without its spaces and capitals.
func TestOneObjectUnderManyNamesIsOneGroup(t *testing.T) {
	for _, known := range []bool{true, false} {
		n := newNight(t, 14, nil)
		names := []string{"NGC 2070", "NGC2070", "ngc 2070"}
		if known {
			names = append(names, "NGC 2070 panel 1", "30 Dor", "NGC 2070 / 30 Dor")
		}
		_, groups := n.lineUp(len(names), known, func(i int, _ *simulate.Shot, l *survey.Light) { l.Header.Object = names[i] })
		require.Len(t, groups, 1, "known %v", known)
		assert.Equal(t, len(names), groups[0].Lights)
	}
}
