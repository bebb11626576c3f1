package plan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// At 52° north M 42 can be followed from its rising for three hours and nine minutes from one end of a short travel; all
// its subs take four minutes more. A rewind for the last four is not worth ten minutes of exposure, and one for a
// minute of exposure is, where the kit says that it may cost no more.
func TestARewindForTheLastSubsOfAGoalMustBeWorthIt(t *testing.T) {
	for _, c := range []struct {
		name  string
		worth time.Duration
		runs  int
	}{{"ten minutes", 10 * time.Minute, 1}, {"a minute", time.Minute, 2}} {
		t.Run(c.name, func(t *testing.T) {
			k := kit.Example()
			k.Site.Place, k.Horizon = sky.Site{Latitude: 52 * sky.Degree, Longitude: 5 * sky.Degree}, kit.Horizon{}
			k.Axis = kit.Axis{Uncertainty: 3 * sky.Degree}
			k.Mount.Floor = 20 * sky.Degree
			k.Derotator.StopsAnywhere = false
			k.Subs = kit.Subs{InARow: 1, Overhead: 5 * time.Second, Settle: time.Minute, Loop: 4 * time.Minute, WorthARewind: c.worth,
				Filters: []kit.Filter{{Name: "L", Exposure: time.Minute, Count: 120}, {Name: "Ha", Exposure: 5 * time.Minute, Count: 12}}}
			target, err := k.FindTarget("M 42")
			require.NoError(t, err)
			night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 22})
			until := time.Date(2026, 12, 22, 23, 41, 0, 0, time.UTC)
			course := night.Course(target, k.Axis).InTurns([]plan.Span{{From: night.Span.From, To: until}})
			s := course.Schedule(plan.Start{At: night.Span.From}, plan.NewSequence(k.Subs))
			assert.Len(t, s.Runs, c.runs)
			lacks := 3*time.Hour - s.Exposed()
			assert.LessOrEqual(t, lacks, c.worth)
			assert.Equal(t, c.runs == 2, lacks == 0, "%s lacking", lacks)
		})
	}
}
