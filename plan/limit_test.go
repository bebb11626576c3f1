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

// courseOf builds the course of one row of limits.csv: twelve hours from its instant.
func courseOf(t *testing.T, r row) (*plan.Course, time.Time) {
	at, err := time.Parse(time.RFC3339Nano, r["utc"])
	require.NoError(t, err)
	k := kit.Kit{
		Site:      kit.Site{Place: sky.Site{Latitude: r.degrees(t, "lat_deg"), Longitude: r.degrees(t, "lon_deg"), ElevationMetres: r.number(t, "elev_m")}},
		Derotator: kit.Derotator{Min: r.degrees(t, "min_deg"), Max: r.degrees(t, "max_deg"), StopsAnywhere: true, Sense: int(r.number(t, "sense"))},
	}
	axis := kit.Axis{Tilt: r.degrees(t, "tilt_deg"), Toward: r.degrees(t, "tilt_az_deg")}
	target := kit.Target{Star: sky.Star{Place: sky.J2000{RA: r.degrees(t, "ra_deg"), Dec: r.degrees(t, "dec_deg")}}}
	frame := sky.NewFrame(k.Site.Place, at.Add(6*time.Hour), 0)
	return plan.NewCourse(k, frame, plan.Span{From: at, To: at.Add(12 * time.Hour)}, target, axis), at
}

func TestLimitsAgreeWithERFA(t *testing.T) {
	const floor = 10 * sky.Degree // as the table was made
	var worstLimit, worstLongest float64
	for _, r := range reference(t, "limits.csv") {
		course, at := courseOf(t, r)
		until := course.UpUntil(floor, at)
		limit := course.Limit(plan.Anchor{At: at, Angle: r.degrees(t, "mech0_deg")}, until)
		assert.Equal(t, r["limit"], limit.Side.String(), "row %s", r["id"])
		end := until
		if limit.At.OK {
			end = limit.At.At
		}
		off := math.Abs(end.Sub(at).Seconds() - r.number(t, "seconds"))
		// 1 s, and what 0.5″ of place are worth at the rate of the crossing; the floor's own crossing is
		// at some degrees an hour.
		assert.Less(t, off, 1+0.5/3600/math.Max(math.Abs(r.number(t, "rate_at_end_deg_per_h")), 0.5)*3600, "row %s: seconds", r["id"])
		worstLimit = math.Max(worstLimit, off)

		longest := course.LongestRun(at, until)
		off = math.Abs(longest.Until.Sub(at).Seconds() - r.number(t, "longest_run_s"))
		assert.Less(t, off, 1+0.5/math.Max(math.Abs(r.number(t, "longest_rate_deg_per_h")), 0.5), "row %s: longest run", r["id"])
		worstLongest = math.Max(worstLongest, off)
		// The start is exact to the travel of some tenths of an arcsecond; the table is rounded to 0.0001°.
		lo, hi := r.number(t, "best_start_lo_deg")-0.0003, r.number(t, "best_start_hi_deg")+0.0003
		assert.True(t, longest.Start.Degrees() >= lo && longest.Start.Degrees() <= hi, "row %s: best start %v in [%v, %v]", r["id"], longest.Start, lo, hi)

		wantReversal := r["reversal"] == "1"
		assert.Equal(t, wantReversal, len(course.Reversals(plan.Span{From: at, To: end})) > 0, "row %s: reversal", r["id"])
	}
	t.Logf("largest: limit %.3f s, longest run %.3f s", worstLimit, worstLongest)
}

// anyCourse draws a course of a random southern or northern site, target and axis.
func anyCourse(t *rapid.T) *plan.Course {
	angle := func(name string, low, high float64) sky.Angle {
		return sky.Angle(rapid.Float64Range(low, high).Draw(t, name)) * sky.Degree
	}
	k := exampleKit()
	k.Site.Place = sky.Site{Latitude: angle("latitude", -65, 65), Longitude: angle("longitude", -180, 180)}
	k.Derotator.Min = angle("min", -170, 100)
	k.Derotator.Max = k.Derotator.Min + angle("travel", 5, 180)
	k.Derotator.Sense = rapid.SampledFrom([]int{-1, 1}).Draw(t, "sense")
	k.Axis = kit.Axis{Tilt: angle("tilt", 0, 8), Toward: angle("toward", 0, 360), Uncertainty: angle("uncertainty", 0, 3)}
	date := plan.Date{Year: 2026, Month: time.Month(rapid.IntRange(1, 12).Draw(t, "month")), Day: rapid.IntRange(1, 28).Draw(t, "day")}
	target := kit.Target{Star: sky.Star{Place: sky.J2000{RA: angle("ra", 0, 360), Dec: angle("dec", -85, 85)}}}
	return plan.NewNight(k, date).Course(target, k.Axis)
}

// The longest run is never shorter than the run from any other start, by the early bound of both.
func TestLongestRunIsTheLongest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		course := anyCourse(t)
		d := course.Kit.Derotator
		from := course.Span.From.Add(time.Duration(rapid.Int64Range(0, int64(16*time.Hour)).Draw(t, "from")))
		until := from.Add(8 * time.Hour)
		longest := course.LongestRun(from, until)
		share := sky.Angle(rapid.Float64Range(0, 1).Draw(t, "share"))
		other := course.From(plan.Anchor{At: from, Angle: d.Min + share*d.Travel()}, until)
		// 5 ms: both times are found to one.
		require.False(t, other.Until.After(longest.Until.Add(5*time.Millisecond)), "a start at %v lasts until %v, the longest until %v", other.Start, other.Until, longest.Until)
		require.True(t, longest.Start >= d.Min && longest.Start <= d.Max, "it starts within the travel")
	})
}

// A planned run lasts as long as it says from the angle that is said, to the tenth of a degree, and hardly
// shorter than the longest: the travel that it leaves unused costs seconds to minutes, and more only where
// the field nearly stands still, which is where a tenth of a degree lasts long.
func TestPlannedRunLastsAsLongAsItSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		course := anyCourse(t)
		d := course.Kit.Derotator
		from := course.Span.From.Add(time.Duration(rapid.Int64Range(0, int64(16*time.Hour)).Draw(t, "from")))
		until := from.Add(8 * time.Hour)
		planned, longest := course.PlannedRun(from, until), course.LongestRun(from, until)
		tenths := planned.Start.Degrees() * 10
		require.True(t, planned.Start == d.Min || planned.Start == d.Max || math.Abs(tenths-math.Round(tenths)) < 1e-6, "said to the tenth: %v", planned.Start)
		again := course.From(plan.Anchor{At: from, Angle: planned.Start}, until)
		require.Less(t, again.Until.Sub(planned.Until).Abs(), 5*time.Millisecond)
		require.False(t, planned.Until.After(longest.Until.Add(5*time.Millisecond)))
		// What the guard leaves unused is 0.2° of travel, and 0.05° more by rounding: a run over the travel
		// less 0.4° is no longer than the planned one.
		if d.Travel() > 2*sky.Degree {
			narrow := *course
			narrow.Kit.Derotator.Min += 0.2 * sky.Degree
			narrow.Kit.Derotator.Max -= 0.2 * sky.Degree
			require.False(t, narrow.LongestRun(from, until).Until.After(planned.Until.Add(5*time.Millisecond)))
		}
	})
}

// Opposite to the axes the field turns round at once, as at them: under the feet of who stands at the equator. A random
// draw found a run of 5 s there by one way and of none by the other.
func TestNoRunIsPlannedOppositeToTheAxes(t *testing.T) {
	k := exampleKit()
	k.Site.Place = sky.Site{Latitude: 0.03125 * sky.Degree, Longitude: 0.5 * sky.Degree}
	k.Derotator.Min, k.Derotator.Max, k.Derotator.Sense = 1*sky.Degree, 9*sky.Degree, -1
	k.Axis = kit.Axis{Tilt: 0.03125 * sky.Degree, Toward: 0.25 * sky.Degree, Uncertainty: 1.5 * sky.Degree}
	place := sky.J2000{RA: 252.93227224337392 * sky.Degree, Dec: -0.3628776682896223 * sky.Degree}
	course := plan.NewNight(k, plan.Date{Year: 2026, Month: 10, Day: 4}).Course(kit.Target{Star: sky.Star{Place: place}}, k.Axis)
	from := course.Span.From.Add(16 * time.Hour)
	require.Less(t, course.Place(from).Altitude, -89*sky.Degree)
	planned := course.PlannedRun(from, from.Add(8*time.Hour))
	assert.Equal(t, from, planned.Until)
	assert.Equal(t, planned.Until, course.From(plan.Anchor{At: from, Angle: planned.Start}, from.Add(8*time.Hour)).Until)
}

// Where the field turns back in a run the plan keeps the run that it promises: M 93, M 41 and M 79 from the
// example's site, whose runs touch both limits.
func TestPlannedRunsGoThroughReversals(t *testing.T) {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	for _, name := range []string{"M 93", "M 41", "M 79"} {
		target, err := k.FindTarget(name)
		require.NoError(t, err)
		course := night.Course(target, k.Axis)
		runs := course.Schedule(plan.Start{At: night.Span.From}, plan.NewSequence(k.Subs))
		require.NotEmpty(t, runs.Runs, name)
		for _, rewind := range runs.Rewinds {
			require.Greater(t, (rewind.ToAngle - rewind.FromAngle).Abs().Degrees(), 1.0, "%s: no rewind that does nothing", name)
		}
		for _, run := range runs.Runs {
			got := course.From(plan.Anchor{At: run.From, Angle: run.StartAngle}, runs.Windows[len(runs.Windows)-1].To)
			require.False(t, run.To.After(got.Until), "%s: it lasts as long as it says", name)
		}
	}
}

// The mechanical angle, looked at every half minute, stays within the travel up to the limit, and passes it.
// A reading from outside the travel widens it on its side: whoever read it knows that the stage can stand there.
func TestLimitIsWhereTheTravelEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		course := anyCourse(t)
		d := course.Kit.Derotator
		from := course.Span.From.Add(time.Duration(rapid.Int64Range(0, int64(14*time.Hour)).Draw(t, "from")))
		anchor := plan.Anchor{At: from, Angle: d.Min + sky.Angle(rapid.Float64Range(-0.05, 1.05).Draw(t, "share"))*d.Travel()}
		lowest, highest := min(d.Min, anchor.Angle), max(d.Max, anchor.Angle)
		until := from.Add(8 * time.Hour)
		limit := course.Limit(anchor, until)
		end := until
		if limit.At.OK {
			end = limit.At.At
			edge := map[plan.Side]sky.Angle{plan.MinLimit: lowest, plan.MaxLimit: highest}[limit.Side]
			// Times are found to 1 ms. Rates have no bound near the axis, so what the angle does in the 2 ms
			// on either side is the tolerance.
			before, after := course.Angle(anchor, end.Add(-2*time.Millisecond)), course.Angle(anchor, end.Add(2*time.Millisecond))
			require.LessOrEqual(t, (min(before, after) - edge).Degrees(), 1e-6, "it has reached the edge by then")
			require.GreaterOrEqual(t, (max(before, after) - edge).Degrees(), -1e-6, "it has not passed it before")
			require.False(t, limit.Early.At.After(limit.At.At), "early is not after the limit")
			require.True(t, !limit.Late.OK || !limit.Late.At.Before(limit.At.At), "late is not before it")
		}
		for at := from; at.Before(end); at = at.Add(30 * time.Second) {
			m := course.Angle(anchor, at)
			require.True(t, m >= lowest-1e-9 && m <= highest+1e-9, "inside the travel at %v", at)
		}
	})
}

// A scale that is not zeroed to the tenth: the field turns into the travel, and it is the far limit that counts.
func TestLimitAfterAReadingFromOutside(t *testing.T) {
	k := exampleKit()
	course := plan.NewNight(k, exampleDate).Course(k.Targets[0], k.Axis)
	window := course.Windows()[0]
	turning := course.Angle(plan.Anchor{At: window.From}, window.From.Add(time.Hour))
	near, far, side := k.Derotator.Min, k.Derotator.Max, plan.MaxLimit
	if turning < 0 {
		near, far, side = far, near, plan.MinLimit
	}
	outward := (near - far) / (near - far).Abs()
	inside := course.Limit(plan.Anchor{At: window.From, Angle: near}, window.To)
	outside := course.Limit(plan.Anchor{At: window.From, Angle: near + outward*0.9*sky.Degree}, window.To)
	require.True(t, inside.At.OK && outside.At.OK)
	assert.Equal(t, []plan.Side{side, side}, []plan.Side{inside.Side, outside.Side})
	assert.True(t, outside.At.At.After(inside.At.At), "there is more travel before it")
	beyond := course.Limit(plan.Anchor{At: window.From, Angle: far - outward*0.9*sky.Degree}, window.To)
	assert.Equal(t, window.From, beyond.At.At, "past the far limit it is reached at once")
}

// The bounds of the limit contain the limit of every axis inside the circle of uncertainty, not only of
// those on its rim.
func TestBoundsContainEveryAxisInTheCircle(t *testing.T) {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	course := night.Course(k.Targets[0], k.Axis)
	window := course.Windows()[0]
	anchor := plan.Anchor{At: window.From, Angle: k.Derotator.Min + 1*sky.Degree}
	limit := course.Limit(anchor, window.To)
	require.True(t, limit.Early.OK && limit.Late.OK)
	rapid.Check(t, func(t *rapid.T) {
		off := sky.Angle(rapid.Float64Range(0, 1).Draw(t, "share")) * k.Axis.Uncertainty
		around := sky.Angle(rapid.Float64Range(0, 360).Draw(t, "around")) * sky.Degree
		east := float64(k.Axis.Tilt)*k.Axis.Toward.Sin() + float64(off)*around.Sin()
		north := float64(k.Axis.Tilt)*k.Axis.Toward.Cos() + float64(off)*around.Cos()
		exact := kit.Axis{Tilt: sky.Angle(math.Hypot(east, north)), Toward: sky.Angle(math.Atan2(east, north))}
		got := night.Course(k.Targets[0], exact).Limit(anchor, window.To)
		require.True(t, got.At.OK)
		require.False(t, got.At.At.Before(limit.Early.At), "%v before early %v", got.At.At, limit.Early.At)
		require.False(t, got.At.At.After(limit.Late.At), "%v after late %v", got.At.At, limit.Late.At)
	})
}

// A stage that stops only at its ends takes the one that lasts longer.
func TestStageThatStopsAtItsEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		course := anyCourse(t)
		course.Kit.Derotator.StopsAnywhere = false
		d := course.Kit.Derotator
		from := course.Span.From.Add(8 * time.Hour)
		until := from.Add(6 * time.Hour)
		chosen := course.LongestRun(from, until)
		require.Contains(t, []sky.Angle{d.Min, d.Max}, chosen.Start)
		for _, end := range []sky.Angle{d.Min, d.Max} {
			require.False(t, course.From(plan.Anchor{At: from, Angle: end}, until).Until.After(chosen.Until))
		}
	})
}
