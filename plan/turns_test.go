package plan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
)

// A target that has its turn only for a while has windows cut to it, and its plan stays within them.
func TestCourseInTurns(t *testing.T) {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	whole := night.Course(k.Targets[0], k.Axis)
	window := whole.Windows()[0]
	turn := plan.Span{From: window.From.Add(time.Hour), To: window.From.Add(3 * time.Hour)}
	cut := whole.InTurns([]plan.Span{turn})
	require.Len(t, cut.Windows(), 1)
	got := cut.Windows()[0]
	assert.Equal(t, turn, got.Span)
	assert.Equal(t, []plan.Bound{plan.ByTurn, plan.ByTurn}, []plan.Bound{got.OpensAfter, got.ClosesBefore})
	for _, run := range cut.Schedule(plan.Start{At: night.Span.From}, plan.NewSequence(k.Subs)).Runs {
		assert.False(t, run.From.Before(turn.From) || run.To.After(turn.To))
	}
	assert.Equal(t, window, whole.Windows()[0], "the course itself is as it was")
	outside := whole.InTurns([]plan.Span{{From: window.From.Add(-2 * time.Hour), To: window.From.Add(-time.Hour)}})
	assert.Empty(t, outside.Windows())
	longer := whole.InTurns([]plan.Span{{From: window.From.Add(-time.Hour), To: window.To.Add(time.Hour)}})
	assert.Equal(t, whole.Windows(), longer.Windows(), "a turn that is longer cuts nothing")
}
