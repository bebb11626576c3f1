package plan_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// ruled returns the example's course for a target that wants a camera angle, so many degrees past that of
// the longest first run.
func ruled(t *testing.T, keep kit.KeepAngle, past sky.Angle) (plain, course *plan.Course, wanted sky.Angle) {
	t.Helper()
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	plain = night.Course(k.Targets[0], k.Axis)
	first := plain.Schedule(plan.Start{At: night.Span.From}, plan.NewSequence(k.Subs)).Runs[0]
	wanted = first.CameraAngle + past
	target := k.Targets[0]
	j2000 := night.Frame.PositionAngleOfJ2000(target.Star.Place, night.Span.From, wanted)
	target.CameraAngle, target.Keep = &j2000, keep
	return plain, night.Course(target, k.Axis), wanted
}

func plannedRuns(c *plan.Course) plan.Schedule {
	return c.Schedule(plan.Start{At: c.Span.From}, plan.NewSequence(c.Kit.Subs))
}

func TestWantedAngleOfTheFirstRun(t *testing.T) {
	plain, course, wanted := ruled(t, kit.PreferAngle, -10*sky.Degree)
	longest, runs := plannedRuns(plain), plannedRuns(course)
	require.Greater(t, len(runs.Runs), 1)
	assert.InDelta(t, 0, (runs.Runs[0].CameraAngle - wanted).Signed().Degrees(), 1e-6, "the first run has the angle")
	assert.Less(t, runs.Runs[0].Length(), longest.Runs[0].Length(), "and is shorter for it")
	second := runs.Runs[1]
	assert.InDelta(t, 0, (course.PlannedRun(second.From, runs.Windows[0].To).Start - second.StartAngle).Degrees(), 1e-9,
		"where the angle can't be had the longest run follows")
}

func TestWantedAngleThatLeavesNoSubGivesWay(t *testing.T) {
	// Past the longest run's own limit by a hair: the reading exists, and no sub fits what remains.
	plain, course, wanted := ruled(t, kit.PreferAngle, -31.99*sky.Degree)
	first := plannedRuns(course).Runs[0]
	require.Len(t, course.ReadingsGiving(wanted, 180*sky.Degree, first.From), 1)
	_, reachable := course.Kit.Derotator.Reach(course.ReadingsGiving(wanted, 180*sky.Degree, first.From)[0])
	require.True(t, reachable)
	assert.Equal(t, plannedRuns(plain).Runs[0].StartAngle, first.StartAngle)
}

func TestAngleKeptAlwaysWaits(t *testing.T) {
	plain, course, wanted := ruled(t, kit.AlwaysKeep, 0)
	runs := plannedRuns(course)
	require.NotEmpty(t, runs.Runs)
	for _, run := range runs.Runs {
		off := (run.CameraAngle - wanted).Signed().Degrees()
		assert.InDelta(t, 0, min(abs(off), abs(abs(off)-180)), 1e-6)
	}
	assert.Less(t, runs.Exposed(), plannedRuns(plain).Exposed()/2, "32° of travel out of 180° leave long waits")
}

func TestAngleNeverKeptIsTheLongestRun(t *testing.T) {
	plain, course, _ := ruled(t, kit.NeverKeep, -10*sky.Degree)
	assert.Equal(t, plannedRuns(plain).Runs, plannedRuns(course).Runs)
}

func TestStageThatStopsAtItsEndsReachesFewAngles(t *testing.T) {
	d := kit.Derotator{Min: -16 * sky.Degree, Max: 16 * sky.Degree}
	for _, test := range []struct {
		name    string
		wanted  sky.Angle
		reading sky.Angle
		ok      bool
	}{
		{"an end", -16 * sky.Degree, -16 * sky.Degree, true},
		{"nearly an end: it is sent there", 15.95 * sky.Degree, 16 * sky.Degree, true},
		{"between", 3 * sky.Degree, 3 * sky.Degree, false},
	} {
		reading, ok := d.Reach(test.wanted)
		assert.Equal(t, test.ok, ok, test.name)
		assert.InDelta(t, test.reading.Degrees(), reading.Degrees(), 1e-9, test.name)
	}
}

// A stage that stops only at its ends gives a wanted angle for seconds only, but a run that begins then lasts.
// Against every second of the window: NextRun begins no later than the first at which a sub fits, but for the
// seconds in which the stage, sent to an end, stands within 0.1° of what is needed.
func TestAngleKeptAlwaysByAStageThatStopsOnlyAtItsEnds(t *testing.T) {
	k := exampleKit()
	k.Derotator.StopsAnywhere = false
	night := plan.NewNight(k, exampleDate)
	found := 0
	for wanted := sky.Angle(0); wanted < 180*sky.Degree; wanted += 15 * sky.Degree {
		for _, alike := range []sky.Angle{180 * sky.Degree, 90 * sky.Degree} {
			course := night.Course(k.Targets[0], k.Axis).WithRule(plan.AngleRule{Keep: kit.AlwaysKeep, Wanted: wanted, Alike: alike})
			window, sequence := course.Windows()[0], plan.NewSequence(k.Subs)
			first, exists := firstBySecond(course, window.Span, sequence)
			next, ok := course.NextRun(nil, window.From, window.Span, sequence)
			require.Equal(t, exists, ok, "%v", wanted.Degrees())
			if !ok {
				continue
			}
			found++
			off := (next.Run.CameraAngle - wanted).Signed()
			turns := sky.Angle(math.Round(float64(off / alike)))
			assert.LessOrEqual(t, (off - turns*alike).Abs().Degrees(), 0.1+1e-9, "the angle is that which is wanted")
			assert.Contains(t, []sky.Angle{k.Derotator.Min, k.Derotator.Max}, next.Run.StartAngle)
			gate := (0.2 * sky.Degree).Degrees() / math.Abs(course.FieldRate(first).DegreesPerHour()) * 3600
			assert.InDelta(t, 0, next.Run.From.Sub(first).Seconds(), gate+1, "%v", wanted.Degrees())
		}
	}
	assert.Greater(t, found, 10, "the night shows it")
}

// firstBySecond returns the first instant of a span from which a run at the wanted angle has a sub.
func firstBySecond(c *plan.Course, span plan.Span, sequence plan.Sequence) (first time.Time, ok bool) {
	d := c.Kit.Derotator
	for at := span.From; at.Before(span.To); at = at.Add(time.Second) {
		for _, end := range []sky.Angle{d.Min, d.Max} {
			off := (c.CameraAngle(end, at) - c.Rule.Wanted).Signed()
			if (off - c.Rule.Alike*sky.Angle(math.Round(float64(off/c.Rule.Alike)))).Abs() > 0.1*sky.Degree {
				continue
			}
			if run, _ := c.RunFrom(plan.Anchor{At: at, Angle: end}, span.To, sequence); len(run.Subs) > 0 {
				return at, true
			}
		}
	}
	return time.Time{}, false
}

// Switching to the rule in mid-night keeps the way the stage has to turn.
func TestRuledRunWaitsForItsRewind(t *testing.T) {
	_, course, wanted := ruled(t, kit.PreferAngle, -10*sky.Degree)
	at := 16 * sky.Degree
	from := course.Windows()[0].From.Add(time.Hour)
	runs := course.Schedule(plan.Start{At: from, Stage: &at}, plan.NewSequence(course.Kit.Subs))
	require.NotEmpty(t, runs.Rewinds)
	assert.InDelta(t, course.RewindTime(at, runs.Runs[0].StartAngle).Seconds(), runs.Rewinds[0].Length().Seconds(), 0.001)
	assert.InDelta(t, 0, (runs.Runs[0].CameraAngle - wanted).Signed().Degrees(), 0.01, "the field turns while the stage does: two rounds settle it")
}

func abs(x float64) float64 { return max(x, -x) }
