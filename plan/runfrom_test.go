package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/sky"
)

func TestARunOfOnesOwnChoice(t *testing.T) {
	course, runs := runsOf(exampleKit(), exampleDate, 0)
	first, sequence := runs.Runs[0], plan.NewSequence(course.Kit.Subs)
	same, after := course.RunFrom(plan.Anchor{At: first.From, Angle: first.StartAngle}, runs.Windows[0].To, sequence)
	assert.Equal(t, first, same, "from the planned angle it is the planned run")
	assert.NotEqual(t, sequence.Taken(), after.Taken())

	shorter, _ := course.RunFrom(plan.Anchor{At: first.From, Angle: first.StartAngle + 10*sky.Degree}, runs.Windows[0].To, sequence)
	require.NotEmpty(t, shorter.Subs)
	assert.Less(t, len(shorter.Subs), len(first.Subs))
	assert.InDelta(t, -10, (shorter.CameraAngle - first.CameraAngle).Signed().Degrees(), 1e-9, "sense +1: a larger reading, a smaller camera angle")
}
