package worth_test

import (
	"testing"
	"time"
	_ "time/tzdata" // the zone of the example, on computers without their own table

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/worth"
)

// colours is the example's kit with a luminance, a red and a narrow Hα, each worth its own time.
func colours() kit.Kit {
	k := kit.Example()
	k.Subs.Order, k.Subs.WorthAChange = kit.ByWorth, 2*time.Minute
	k.Subs.Filters = []kit.Filter{
		{Name: "L", Exposure: time.Minute, Count: 120, Kind: kit.Broad, CentreNM: 550, BandwidthNM: 300},
		{Name: "R", Exposure: 2 * time.Minute, Count: 30, Kind: kit.Broad, CentreNM: 635, BandwidthNM: 100},
		{Name: "Ha", Exposure: 5 * time.Minute, Count: 30, Kind: kit.LineFilter, CentreNM: 656.28, BandwidthNM: 3},
	}
	return k
}

func planned(k kit.Kit, date plan.Date) (*plan.Night, *plan.Course, plan.Schedule) {
	n := plan.NewNight(k, date)
	c := n.Course(k.Targets[0], k.Axis)
	return n, c, c.Schedule(plan.Start{At: n.Span.From}, worth.Sequence(n, k.Targets[0]))
}

func total(w *plan.Worth, k kit.Kit, s plan.Schedule) (sum float64) {
	for _, run := range s.Runs {
		for _, sub := range run.Subs {
			for f, filter := range k.Subs.Filters {
				if filter.Name == sub.Filter.Name {
					sum += w.Of(f, sub.Exposure)
				}
			}
		}
	}
	return sum
}

// The Moon of 17 December 2026 is at its first quarter (almanacs; (memory)) and sets about midnight. Common practice:
// lines before it sets, luminance after.
func TestLinesComeUntilMoonset(t *testing.T) {
	k := colours()
	n, c, s := planned(k, plan.Date{Year: 2026, Month: time.December, Day: 16})
	parts := worth.Parts(n, c, s)
	require.NotEmpty(t, parts)
	assert.Equal(t, "Ha", parts[0].Filter)
	assert.Equal(t, 30, parts[0].Count)
	assert.Equal(t, worth.UntilMoonset, parts[0].Why)
	assert.Equal(t, n.Moonset.At, parts[0].At)
	assert.Equal(t, "L", parts[1].Filter)
	assert.Equal(t, worth.WhileHigh, parts[1].Why)
	assert.True(t, s.After.Done())
}

func TestTheOrderKeepsRunsRewindsAndCounts(t *testing.T) {
	for day := 3; day <= 27; day += 6 {
		k := colours()
		n, c, s := planned(k, plan.Date{Year: 2026, Month: time.December, Day: day})
		written := c.Schedule(plan.Start{At: n.Span.From}, plan.NewSequence(c.Kit.Subs))
		assert.Len(t, s.Runs, len(written.Runs), "day %d", day)
		assert.InDelta(t, written.Exposed().Minutes(), s.Exposed().Minutes(), 5*float64(len(s.Runs)), "a sub more or less in each run, day %d", day)
		w := worth.Of(n, k.Targets[0])
		assert.Greater(t, total(w, k, s), 0.995*total(w, k, written), "day %d", day)
		for _, rewind := range s.Rewinds {
			for _, run := range s.Runs {
				assert.False(t, rewind.From.Before(run.To) && run.From.Before(rewind.To), "day %d: the rewind %v lies in the run %v", day, rewind.Span, run.Span)
			}
		}
		for _, run := range s.Runs {
			if run.Limit.Early.OK {
				assert.False(t, run.To.After(run.Limit.Early.At), "day %d", day)
			}
		}
		// A sequence that was told its order takes the same subs.
		again := c.Schedule(plan.Start{At: n.Span.From}, plan.NewSequence(c.Kit.Subs).InOrder(s.Order()))
		assert.Equal(t, s.Exposed(), again.Exposed(), "day %d", day)
	}
}

func TestAsWrittenTheFiltersTakeTurns(t *testing.T) {
	k := colours()
	k.Subs.Order = kit.AsWritten
	n, c, s := planned(k, plan.Date{Year: 2026, Month: time.December, Day: 16})
	assert.Nil(t, worth.Of(n, k.Targets[0]))
	assert.Empty(t, worth.Parts(n, c, s))
	assert.Equal(t, "L", s.Runs[0].Subs[0].Filter.Name)
	assert.Equal(t, "R", s.Runs[0].Subs[k.Subs.InARow].Filter.Name)
}

// A minute is worth a minute at most, and less under the Moon: least through the widest filter (common practice).
func TestWorthUnderAFullMoon(t *testing.T) {
	k := colours()
	n := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 24})
	dark := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 8})
	w, moonless := worth.Of(n, k.Targets[0]), worth.Of(dark, k.Targets[0])
	middle := n.Dark[0].From.Add(n.Dark[0].Length() / 2)
	share := func(f int) float64 {
		return w.At(f, middle) / moonless.At(f, middle.AddDate(0, 0, -16).Add(64*time.Minute))
	}
	assert.Less(t, share(0), 0.7*share(2))
	assert.Greater(t, share(2), 0.6)
	for f := range w.ByFilter {
		for _, v := range w.ByFilter[f] {
			assert.True(t, v >= 0 && v <= 1)
		}
	}
}

// A kit whose filters serve all its targets wants Hα of a galaxy too. A minute of it counts for next to nothing there,
// wherever it lies, so that luminance and red have the best of the night and it is Hα that is left out; a galaxy that has
// its own Hα in the kit keeps it.
func TestHαOfAGalaxyIsWhatIsLeftOut(t *testing.T) {
	k := colours()
	k.Subs.Filters[0].Count, k.Subs.Filters[1].Count, k.Subs.Filters[2].Count = 200, 60, 100
	galaxy, err := k.FindTarget("NGC 253")
	require.NoError(t, err)
	taken := func(target kit.Target) []int {
		k.Targets = []kit.Target{target}
		_, _, s := planned(k, plan.Date{Year: 2026, Month: time.November, Day: 8})
		require.NotEmpty(t, s.Runs)
		return s.After.Taken()
	}
	shared := taken(galaxy)
	assert.InDelta(t, 0, shared[2], 2, "a last few minutes that nothing else fits may be Hα's")
	assert.Greater(t, shared[0], 120)
	for _, f := range k.Subs.Filters {
		galaxy.Filters = append(galaxy.Filters, kit.TargetFilter{Name: f.Name, Exposure: f.Exposure, Count: f.Count})
	}
	assert.Greater(t, taken(galaxy)[2], 20)
}

// BenchmarkScheduleByWorth is a night's schedule with the order of three filters laid, the worth of its subs included.
func BenchmarkScheduleByWorth(b *testing.B) {
	k := colours()
	for _, anywhere := range []bool{false, true} {
		k.Derotator.StopsAnywhere = anywhere
		n := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 16})
		c := n.Course(k.Targets[0], k.Axis)
		b.Run(map[bool]string{false: "ends", true: "anywhere"}[anywhere], func(b *testing.B) {
			for b.Loop() {
				c.Schedule(plan.Start{At: n.Span.From}, worth.Sequence(n, k.Targets[0]))
			}
		})
	}
}
