package plan_test

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

var exampleDate = plan.Date{Year: 2026, Month: time.December, Day: 5}

func exampleKit() kit.Kit { return kit.Example() }

func runsOf(k kit.Kit, date plan.Date, target int) (*plan.Course, plan.Schedule) {
	night := plan.NewNight(k, date)
	course := night.Course(k.Targets[target], k.Axis)
	return course, course.Schedule(plan.Start{At: night.Span.From}, plan.NewSequence(k.Subs))
}

// The trade's rule of thumb: typical runs last one to two hours, depending on where the target is (common
// practice). The example's invented derotator was given the travel for it.
func TestExampleNightHasRunsOfOneToTwoHours(t *testing.T) {
	_, runs := runsOf(exampleKit(), exampleDate, 0)
	require.GreaterOrEqual(t, len(runs.Runs), 3)
	for i, run := range runs.Runs[:len(runs.Runs)-1] {
		assert.True(t, run.Length() > 50*time.Minute && run.Length() < 2*time.Hour+15*time.Minute, "run %d lasts %v", i+1, run.Length())
	}
}

// NGC 1365 culminates 4° from the zenith of the example site: the keyhole parts its night in two.
func TestSecondExampleTargetMeetsTheKeyhole(t *testing.T) {
	course, runs := runsOf(exampleKit(), exampleDate, 1)
	require.Len(t, runs.Windows, 2)
	assert.Equal(t, plan.ByKeyhole, runs.Windows[0].ClosesBefore)
	assert.Equal(t, plan.ByKeyhole, runs.Windows[1].OpensAfter)
	for _, w := range runs.Windows {
		middle := w.From.Add(w.Length() / 2)
		assert.Less(t, course.AboutAxis(middle), course.Kit.Mount.Ceiling)
	}
	ceiling := runs.Windows[0].Ceiling
	assert.Equal(t, runs.Windows[0].To, ceiling.Early.At, "it closes as the first axis comes to the keyhole's edge")
	require.True(t, ceiling.At.OK && ceiling.Late.OK)
	assert.InDelta(t, 80, course.AboutAxis(ceiling.At.At).Degrees(), 0.001, "the axis as known comes to it later")
	assert.InDelta(t, 80-course.Axis.Uncertainty.Degrees(), course.AboutAxis(ceiling.Early.At).Degrees(), 0.001)
	assert.InDelta(t, 80+course.Axis.Uncertainty.Degrees(), course.AboutAxis(ceiling.Late.At).Degrees(), 0.001)
}

// Runs never overlap, nothing lies outside the windows, each sub lies within its run, each run ends before
// its early bound less the margin, and the sums are sums: for any site, target and axis.
func TestRunsCoverTheNightWithoutOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		course := anyCourse(t)
		k := course.Kit
		runs := course.Schedule(plan.Start{At: course.Span.From}, plan.NewSequence(k.Subs))
		total, exposed := 0, time.Duration(0)
		var before time.Time
		for _, run := range runs.Runs {
			require.False(t, run.From.Before(before), "a run begins when the one before is over")
			require.True(t, insideOne(runs.Windows, run.Span), "a run lies within a window")
			require.True(t, run.StartAngle >= k.Derotator.Min && run.StartAngle <= k.Derotator.Max)
			require.True(t, run.EndAngle >= k.Derotator.Min-1e-6 && run.EndAngle <= k.Derotator.Max+1e-6)
			if run.Limit.Early.OK {
				require.False(t, run.To.After(run.Limit.Early.At.Add(-k.Derotator.Margin)), "it is over before the call")
			}
			at := run.From.Add(k.Subs.Settle)
			for _, sub := range run.Subs {
				require.False(t, sub.Exposure.From.Before(at), "subs do not overlap")
				require.Equal(t, sub.Filter.Exposure, sub.Exposure.Length())
				at = sub.Over
				exposed += sub.Filter.Exposure
			}
			require.Equal(t, at, run.To)
			total += len(run.Subs)
			before = run.To
		}
		require.Equal(t, exposed, runs.Exposed())
		counted, place := 0, -1
		for _, c := range runs.Counts() {
			counted += c.Count
			next := slices.IndexFunc(k.Subs.Filters, func(f kit.Filter) bool { return f.Name == c.Filter })
			require.Greater(t, next, place, "in the kit's order")
			place = next
		}
		require.Equal(t, total, counted)
		for i, taken := range runs.After.Taken() {
			require.LessOrEqual(t, taken, k.Subs.Filters[i].Count, "no more subs than wanted")
		}
	})
}

// A night that is taken up in the middle of a round begins with another filter; the counts keep the kit's order.
func TestCountsKeepTheKitsOrder(t *testing.T) {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	course := night.Course(k.Targets[0], k.Axis)
	first := k.Subs.Filters[0]
	turn := plan.NewSequence(k.Subs)
	from := course.Windows()[0].From
	for n := 1; ; n++ { // until the first filter's turn is over
		_, after := turn.Run(from, from.Add(time.Duration(n)*time.Minute))
		runs := course.Schedule(plan.Start{At: from}, after)
		if begins := runs.Runs[0].Subs[0].Filter; begins.Name != first.Name {
			assert.Equal(t, first.Name, runs.Counts()[0].Filter, "though %s comes first", begins.Name)
			assert.Equal(t, first.Name, runs.Runs[0].Counts[0].Filter)
			return
		}
		require.Less(t, n, 120)
	}
}

func insideOne(windows []plan.Window, s plan.Span) bool {
	for _, w := range windows {
		if !s.From.Before(w.From) && !s.To.After(w.To) {
			return true
		}
	}
	return false
}

// The camera angle is constant through a run, and a rewind from m₁ to m₂ changes it by −s·(m₂ − m₁): the
// project's handbook, section 5.
func TestCameraAngleIsConstantInARunAndTurnsByTheRewind(t *testing.T) {
	for _, sense := range []int{1, -1} {
		k := exampleKit()
		k.Derotator.Sense = sense
		course, runs := runsOf(k, exampleDate, 0)
		for _, run := range runs.Runs {
			end := course.CameraAngle(run.EndAngle, run.To)
			assert.InDelta(t, 0, (end - run.CameraAngle).Signed().Degrees(), 1e-9)
		}
		require.NotEmpty(t, runs.Rewinds)
		for i, rewind := range runs.Rewinds {
			// From the end of one run to the start of the next the sky turns on.
			turned := course.FieldAngle(runs.Runs[i+1].From) - course.FieldAngle(runs.Runs[i].To)
			want := turned - sky.Angle(sense)*(rewind.ToAngle-rewind.FromAngle)
			got := runs.Runs[i+1].CameraAngle - runs.Runs[i].CameraAngle
			assert.InDelta(t, 0, (got - want).Signed().Degrees(), 1e-5) // the start settles to a millisecond
		}
	}
}

// When no sub fits a run from one instant, the plan waits for an instant from which one does, and does not
// give up the rest of the window: stages of little travel, and those that stop at their ends only, meet that
// where the field turns fast.
func TestPlanWaitsWhereNoSubFits(t *testing.T) {
	k := exampleKit()
	k.Site.Place = sky.Site{Latitude: 51.5 * sky.Degree}
	k.Horizon = kit.NewHorizon(nil)
	k.Derotator.Min, k.Derotator.Max = -20*sky.Degree, 20*sky.Degree
	k.Derotator.StopsAnywhere = false
	k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: 180 * time.Second, Count: 500}}
	m31 := kit.Target{Name: "M 31", Star: sky.Star{Place: sky.J2000{RA: 10.685 * sky.Degree, Dec: 41.269 * sky.Degree}}}
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.October, Day: 25})
	course := night.Course(m31, k.Axis)
	runs := course.Schedule(plan.Start{At: night.Span.From}, plan.NewSequence(k.Subs))
	share := runs.Exposed().Seconds() / runs.Usable().Seconds()
	assert.Greater(t, share, 0.6, "most of the windows is used")
	last := runs.Windows[len(runs.Windows)-1]
	assert.Less(t, last.To.Sub(runs.Runs[len(runs.Runs)-1].To), 30*time.Minute, "up to their end")
}

func TestNightsThatDoNotGoAsUsual(t *testing.T) {
	dec := func(degrees float64) kit.Target {
		return kit.Target{Name: "made up", Star: sky.Star{Place: sky.J2000{RA: 84 * sky.Degree, Dec: sky.Angle(degrees) * sky.Degree}}}
	}
	at := func(lat, lon float64) kit.Kit {
		k := exampleKit()
		k.Site.Place = sky.Site{Latitude: sky.Angle(lat) * sky.Degree, Longitude: sky.Angle(lon) * sky.Degree}
		k.Horizon = kit.NewHorizon(nil)
		return k
	}
	windows := func(k kit.Kit, date plan.Date, target kit.Target) []plan.Window {
		return plan.NewNight(k, date).Course(target, k.Axis).Windows()
	}
	winter := plan.Date{Year: 2026, Month: time.December, Day: 21}
	summer := plan.Date{Year: 2026, Month: time.June, Day: 21}
	t.Run("midsummer at 60° north has no darkness, so no window", func(t *testing.T) {
		assert.Empty(t, windows(at(60, 25), summer, dec(40)))
		assert.Empty(t, plan.NewNight(at(60, 25), summer).Dark)
	})
	t.Run("a polar night is dark from noon to noon", func(t *testing.T) {
		night := plan.NewNight(at(88, 0), winter)
		assert.Equal(t, []plan.Span{night.Span}, night.Dark)
		ws := windows(at(88, 0), winter, dec(40))
		require.Len(t, ws, 1)
		assert.Equal(t, plan.ByNight, ws[0].OpensAfter)
	})
	t.Run("a target that never rises has no window", func(t *testing.T) {
		assert.Empty(t, windows(at(50, 8), winter, dec(-60)))
	})
	t.Run("a circumpolar target is bounded by darkness alone", func(t *testing.T) {
		ws := windows(at(50, 8), winter, dec(80))
		require.Len(t, ws, 1)
		assert.Equal(t, plan.ByDarkness, ws[0].OpensAfter)
		assert.Equal(t, plan.ByDarkness, ws[0].ClosesBefore)
	})
	t.Run("the same sky at the antipode of longitude comes twelve hours later", func(t *testing.T) {
		east, west := windows(at(-32, 170), winter, dec(-69)), windows(at(-32, -10), winter, dec(-69))
		require.NotEmpty(t, east)
		require.Len(t, west, len(east))
		// The stars come 12 h later less half of the 4 min they gain a day; the Sun's dusk a few seconds.
		assert.InDelta(t, 12, west[0].From.Sub(east[0].From).Hours(), 0.04)
	})
	t.Run("a wall of gum trees closes the window and is named", func(t *testing.T) {
		k := at(-32, 141.5)
		k.Horizon = kit.NewHorizon([]kit.HorizonPoint{{Azimuth: 180 * sky.Degree, Altitude: 10 * sky.Degree}, {Azimuth: 200 * sky.Degree, Altitude: 60 * sky.Degree, Name: "gum trees"}, {Azimuth: 220 * sky.Degree, Altitude: 10 * sky.Degree}})
		ws := windows(k, winter, dec(-69))
		require.NotEmpty(t, ws)
		assert.Equal(t, plan.ByHorizon, ws[0].ClosesBefore)
		assert.Equal(t, "gum trees", ws[0].Obstruction)
	})
	t.Run("a slow mount's keyhole is wider than its ceiling says", func(t *testing.T) {
		k := exampleKit()
		k.Mount.Ceiling, k.Mount.LargestAzimuthRate = 89*sky.Degree, 0.01*sky.DegreePerSecond
		course := plan.NewNight(k, exampleDate).Course(k.Targets[1], k.Axis)
		ws := course.Windows()
		require.Len(t, ws, 2)
		assert.Equal(t, plan.ByAzimuthRate, ws[0].ClosesBefore)
		assert.Less(t, course.AboutAxis(ws[0].To), k.Mount.Ceiling)
	})
	t.Run("a slow derotator's too", func(t *testing.T) {
		k := exampleKit()
		k.Mount.Ceiling, k.Derotator.LargestRate = 89*sky.Degree, 30*sky.DegreePerHour
		ws := plan.NewNight(k, exampleDate).Course(k.Targets[1], k.Axis).Windows()
		require.Len(t, ws, 2)
		assert.Equal(t, plan.ByDerotatorRate, ws[0].ClosesBefore)
	})
}

// A night belongs to the evening it began on, whatever the wall clock does: at the end of daylight saving
// in the middle of the night, and on both sides of the date line.
func TestTheDateOfANight(t *testing.T) {
	zone, err := time.LoadLocation("Australia/Broken_Hill")
	require.NoError(t, err)
	site := kit.Example().Site.Place
	for _, c := range []struct {
		name string
		at   time.Time
		want string
	}{
		{"in the evening", time.Date(2026, 12, 5, 21, 0, 0, 0, zone), "2026-12-05"},
		{"after midnight", time.Date(2026, 12, 6, 4, 0, 0, 0, zone), "2026-12-05"},
		{"as daylight saving ends at 3 on 5 April", time.Date(2026, 4, 5, 2, 30, 0, 0, zone), "2026-04-04"},
		{"an hour after, the wall clock reads the same", time.Date(2026, 4, 5, 2, 30, 0, 0, zone).Add(time.Hour), "2026-04-04"},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, plan.DateOf(site, c.at).String()) })
	}
	utc := time.Date(2026, 12, 5, 11, 0, 0, 0, time.UTC)
	assert.Equal(t, "2026-12-05", plan.DateOf(sky.Site{Longitude: 179 * sky.Degree}, utc).String(), "23 h at 179° east")
	assert.Equal(t, "2026-12-04", plan.DateOf(sky.Site{Longitude: -179 * sky.Degree}, utc).String(), "the same instant at 179° west is the night before")
}

// A run that spans the end of daylight saving lasts as long as it lasts.
func TestDaylightSavingDoesNotStretchARun(t *testing.T) {
	change := time.Date(2026, 4, 4, 16, 30, 0, 0, time.UTC) // 3:00 summer time becomes 2:00
	spanned := 0
	for ra := 150.0; ra < 260; ra += 10 {
		k := exampleKit()
		k.Targets[0].Star.Place = sky.J2000{RA: sky.Angle(ra) * sky.Degree, Dec: -69 * sky.Degree}
		_, runs := runsOf(k, plan.Date{Year: 2026, Month: time.April, Day: 4}, 0)
		for _, run := range runs.Runs {
			if !run.Contains(change) {
				continue
			}
			spanned++
			elapsed := k.Subs.Settle + afterTurn(runs, run)
			for _, sub := range run.Subs {
				elapsed += sub.Over.Sub(sub.Exposure.From)
			}
			assert.Equal(t, elapsed, run.Length(), "settling and subs, and not an hour more")
		}
	}
	assert.Positive(t, spanned, "some of these targets have a run across the change")
}

// afterTurn is what of the loop comes at a run's beginning: nothing unless a rewind came before it.
func afterTurn(s plan.Schedule, run plan.Run) time.Duration {
	if run.From.Equal(s.Runs[0].From) {
		return 0
	}
	return exampleKit().Subs.AfterTurn()
}

func BenchmarkNightPlan(b *testing.B) {
	k := exampleKit()
	b.ReportAllocs()
	for range b.N {
		runsOf(k, exampleDate, 0)
	}
}
