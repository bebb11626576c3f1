package plan_test

import (
	"math/rand/v2"
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

// Whatever the kit: nothing overlaps, each run is safe for every axis, each rewind has its turning and its loop, half of
// that before it and half after, and
// runs, rewinds, waits and gaps add up to the dark exactly, each gap with its reason.
func TestSchedulesAccountForAllOfTheDark(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		random := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		course := anyScheduled(random, rapid.Bool().Draw(t, "anywhere"))
		k := &course.Kit
		k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: time.Duration(rapid.IntRange(20, 600).Draw(t, "exposure")) * time.Second, Count: rapid.SampledFrom([]int{3, 40, 5000}).Draw(t, "count")}}
		k.Subs.Loop = time.Duration(rapid.SampledFrom([]int{0, 240}).Draw(t, "loop")) * time.Second
		k.Subs.WorthARewind = time.Duration(rapid.SampledFrom([]int{0, 600}).Draw(t, "worth")) * time.Second
		start := plan.Start{At: course.Span.From.Add(time.Duration(rapid.IntRange(0, 16*60).Draw(t, "minutes")) * time.Minute)}
		stage := k.Derotator.Min + sky.Angle(rapid.Float64Range(0, 1).Draw(t, "stands"))*k.Derotator.Travel()
		if rapid.Bool().Draw(t, "known") {
			start.Stage = &stage
		}
		s := course.Schedule(start, plan.NewSequence(k.Subs))
		var pieces []plan.Span
		free, stands := start.At, start.Stage
		for i, run := range s.Runs {
			pieces = append(pieces, run.Span)
			require.NotEmpty(t, run.Subs)
			require.True(t, insideOne(s.Windows, run.Span))
			if run.Limit.Early.OK {
				require.False(t, run.To.After(run.Limit.Early.At.Add(-k.Derotator.Margin)), "it is safe for every axis")
			}
			slack := time.Microsecond
			if k.Subs.Loop > 0 { // the stage may track before a window opens, and then stands elsewhere than where it was turned to
				slack = 15 * time.Second
			}
			goesOn := stands != nil && i > 0 && (run.StartAngle-*stands).Abs() < sky.Degree && run.From.Sub(free) < k.Subs.BeforeTurn()
			if stands != nil && !goesOn && !tracksOn(s, i) {
				needs := course.RewindTime(*stands, run.StartAngle)
				if i > 0 {
					needs += k.Subs.Loop
				}
				require.GreaterOrEqual(t, run.Subs[0].Exposure.From.Sub(free), needs+k.Subs.Settle-slack, "run %d waits for the stage", i)
			}
			free, stands = run.To, &run.EndAngle
		}
		for _, r := range s.Rewinds {
			pieces = append(pieces, r.Span)
			require.InDelta(t, course.RewindTime(r.FromAngle, r.ToAngle).Seconds(), r.Turns.Seconds(), 1e-6)
			require.GreaterOrEqual(t, r.Length(), r.Turns)
			require.False(t, r.From.Before(start.At))
		}
		for _, idle := range append(append([]plan.Idle{}, s.Waits...), s.Gaps...) {
			require.NotEmpty(t, idle.Why.Words(idle.Bound))
			pieces = append(pieces, idle.Span)
		}
		var dark, all time.Duration
		for _, d := range s.Dark {
			dark += d.Length()
		}
		slices.SortFunc(pieces, func(a, b plan.Span) int { return a.From.Compare(b.From) })
		for i, p := range pieces {
			if i > 0 {
				require.False(t, p.From.Before(pieces[i-1].To), "%v and %v overlap", pieces[i-1], p)
			}
			for _, d := range s.Dark {
				all += d.Overlap(p)
			}
		}
		require.Equal(t, dark, all)
	})
}

// tracksOn tells whether a run goes on from the one before it without a rewind.
func tracksOn(s plan.Schedule, i int) bool {
	for _, r := range s.Rewinds {
		if r.To.Equal(s.Runs[i].From) {
			return false
		}
	}
	return i > 0
}

// The example rewound at 04:05 for four subs of a minute: a rewind is planned only if it gains more than it is worth.
func TestARewindThatGainsLittleIsNotPlanned(t *testing.T) {
	course, start, sequence := scheduled(true)
	for _, worth := range []time.Duration{0, 10 * time.Minute, time.Hour, 2 * time.Hour} {
		course.Kit.Subs.WorthARewind = worth
		s := course.Schedule(start, sequence)
		for _, rewind := range s.Rewinds {
			without := time.Duration(0)
			for _, run := range s.Runs {
				if run.From.Equal(rewind.To) {
					without = run.Exposed
				}
			}
			assert.Greater(t, without, worth, "each gains more than %v", worth)
		}
		if worth == 2*time.Hour {
			assert.Empty(t, s.Rewinds, "no run of this night is as long")
			assert.Equal(t, plan.NotWorthIt, s.Gaps[len(s.Gaps)-1].Why)
		}
	}
}

// A slow stage takes longer to its start than the sky does to move on: the start and the way to it agree.
func TestASlowStagesRewindNeverBeginsBeforeTheRunIsOver(t *testing.T) {
	const seed, nights = 9, 25
	random := rand.New(rand.NewPCG(seed, 0))
	rewinds := 0
	for range nights {
		course := anyScheduled(random, true)
		course.Kit.Derotator.RewindSpeed = 0.05 * sky.DegreePerSecond
		s := course.Schedule(plan.Start{At: course.Span.From}, plan.NewSequence(course.Kit.Subs))
		for _, rewind := range s.Rewinds {
			rewinds++
			for _, run := range s.Runs {
				assert.Zero(t, run.Overlap(rewind.Span), "seed %d", seed)
			}
		}
	}
	assert.Greater(t, rewinds, 10, "the nights show it")
}

// The last run goes to the nearest angle that serves it to its end, not to the middle of all that do.
func TestTheLastRunGoesToTheNearestAngleThatServes(t *testing.T) {
	course, start, sequence := scheduled(true)
	window := course.Windows()[0]
	start.At = window.To.Add(-40 * time.Minute)
	for _, stands := range []sky.Angle{-16 * sky.Degree, 5 * sky.Degree, 16 * sky.Degree} {
		start.Stage = &stands
		s := course.Schedule(start, sequence)
		require.Len(t, s.Runs, 1)
		run := s.Runs[0]
		assert.True(t, run.To.After(window.To.Add(-2*time.Minute)))
		nearer := run.StartAngle + 0.2*sky.Degree*((stands-run.StartAngle)/max((stands-run.StartAngle).Abs(), 1e-9))
		if run.StartAngle == stands {
			continue
		}
		assert.True(t, course.From(plan.Anchor{At: run.From, Angle: nearer}, window.To).Until.Before(window.To.Add(course.Kit.Derotator.Margin)), "nearer to %v would not serve", stands)
	}
}

// A derotator that tracks goes on from its anchor; the run under way is not begun anew.
func TestAScheduleGoesOnFromWhatTracks(t *testing.T) {
	course, start, sequence := scheduled(true)
	whole := course.Schedule(start, sequence)
	first := whole.Runs[0]
	anchor := plan.Anchor{At: first.From, Angle: first.StartAngle}
	now := first.From.Add(30 * time.Minute)
	s := course.Schedule(plan.Start{At: now, Tracking: &anchor}, sequence)
	require.NotEmpty(t, s.Runs)
	assert.Equal(t, now, s.Runs[0].From)
	assert.Equal(t, now, s.Runs[0].Subs[0].Exposure.From, "nothing settles anew")
	assert.InDelta(t, course.Angle(anchor, now).Degrees(), s.Runs[0].StartAngle.Degrees(), 1e-9)
	// What is left of the whole night's best is the best that is left, within a sub or two at the run's end.
	assert.InDelta(t, (whole.Exposed() - 29*time.Minute).Minutes(), s.Exposed().Minutes(), 4)
}

// Where the field is about to reverse, a start at the travel's end may have to wait for minutes before no axis turns it
// beyond: a run was lost for that at some instants and not at others.
func TestWhatIsLeftOfANightFallsByNoMoreThanWhatPasses(t *testing.T) {
	k := kit.Example()
	k.Example, k.Horizon = false, kit.NewHorizon(nil)
	k.Site.Place = sky.Site{Latitude: 37.6996 * sky.Degree, Longitude: 63.9166 * sky.Degree}
	k.Derotator.Min, k.Derotator.Max, k.Derotator.StopsAnywhere = -62.7696*sky.Degree, 62.7696*sky.Degree, false
	k.Derotator.Sense, k.Derotator.RewindSpeed = 1, 6410.907*sky.DegreePerHour
	k.Axis = kit.Axis{Tilt: 1.0891 * sky.Degree, Toward: 237.0897 * sky.Degree, Uncertainty: 2.5271 * sky.Degree}
	k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: 271 * time.Second, Count: 2000}}
	target := kit.Target{Name: "drawn", Star: sky.Star{Place: sky.J2000{RA: 91.06377 * sky.Degree, Dec: 28.43188 * sky.Degree}}}
	course := plan.NewNight(k, plan.Date{Year: 2027, Month: time.November, Day: 5}).Course(target, k.Axis)
	begins := time.Date(2027, 11, 5, 18, 50, 0, 0, time.UTC)
	anchor := plan.Anchor{At: time.Date(2027, 11, 5, 19, 2, 1, 0, time.UTC), Angle: 58.1206 * sky.Degree}
	before := time.Duration(0)
	for minute := range 30 {
		at := begins.Add(time.Duration(minute) * time.Minute)
		left := course.Schedule(plan.Start{At: at, Tracking: &anchor}, plan.NewSequence(k.Subs)).Exposed()
		assert.GreaterOrEqual(t, left, before-time.Minute-3*271*time.Second, "within a sub a run, at %s", at)
		before = left
	}
}

// When all that is wanted fits one run there is no rewind, and the night ends when it is taken.
func TestAGoalIsReachedWithTheFewestRewindsAndSoon(t *testing.T) {
	course, start, _ := scheduled(true)
	course.Kit.Subs.Filters[0].Count = 60
	s := course.Schedule(start, plan.NewSequence(course.Kit.Subs))
	require.True(t, s.After.Done())
	assert.Empty(t, s.Rewinds)
	assert.Less(t, s.Runs[0].To.Sub(course.Windows()[0].From), 80*time.Minute)
	assert.Equal(t, plan.GoalReached, s.Gaps[len(s.Gaps)-1].Why)
}

// scheduled is the usual kit with a target that needs several rewinds all night, and more subs than fit.
func scheduled(anywhere bool) (*plan.Course, plan.Start, plan.Sequence) {
	k := exampleKit()
	k.Derotator.StopsAnywhere = anywhere
	k.Axis.Uncertainty = 3 * sky.Degree
	k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: time.Minute, Count: 5000}}
	night := plan.NewNight(k, exampleDate)
	return night.Course(k.Targets[0], k.Axis), plan.Start{At: night.Span.From}, plan.NewSequence(k.Subs)
}

func BenchmarkScheduleEnds(b *testing.B) {
	course, start, sequence := scheduled(false)
	b.ReportAllocs()
	for range b.N {
		course.Schedule(start, sequence)
	}
}

func BenchmarkScheduleAnywhere(b *testing.B) {
	course, start, sequence := scheduled(true)
	b.ReportAllocs()
	for range b.N {
		course.Schedule(start, sequence)
	}
}
