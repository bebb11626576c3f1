package plan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
)

func TestATargetIsPlannedThroughItsOwnFilters(t *testing.T) {
	k := kit.Example()
	k.Targets[1].Filters = []kit.TargetFilter{{Name: "R", Exposure: 30 * time.Second, Count: 40}, {Name: "B"}}
	n := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
	for i, want := range [][]int{{120, 40, 40, 40}, {0, 40, 0, 40}} { // as the kit counts them, and as the target does
		c := n.Course(k.Targets[i], k.Axis)
		runs := c.Schedule(plan.Start{At: n.Span.From}, plan.NewSequence(c.Kit.Subs))
		require.NotEmpty(t, runs.Runs)
		for f, taken := range runs.After.Taken() {
			assert.LessOrEqual(t, taken, want[f], "%s: %s", k.Targets[i].Name, k.Subs.Filters[f].Name)
		}
		for _, sub := range runs.Runs[0].Subs {
			if i == 1 && sub.Filter.Name == "R" {
				assert.Equal(t, 30*time.Second, sub.Exposure.Length())
			}
		}
		if i == 1 {
			assert.Equal(t, want, runs.After.Taken(), "the night is long enough for two filters")
		}
	}
}
