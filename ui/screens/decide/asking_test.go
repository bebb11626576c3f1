package decide_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/choose"
	"duskhand/ui/facts"
	"duskhand/ui/screens/decide"
)

// A computation that takes long tells how far it has come, and its answer comes all the same.
func TestALongComputationTellsHowFarItIs(t *testing.T) {
	release := make(chan struct{})
	msg := decide.Search(func(_ context.Context, progress func(int, int)) (int, error) {
		progress(3, 7)
		<-release
		return 42, nil
	})()
	done, total, again, ok := decide.HowFar(msg)
	require.True(t, ok, "%#v", msg)
	assert.Equal(t, []int{3, 7}, []int{done, total})
	close(release)
	answer, ok := decide.Found(again())
	require.True(t, ok)
	assert.Equal(t, 42, answer)
	_, _, _, ok = decide.HowFar(decide.Search(func(context.Context, func(int, int)) (int, error) { return 1, nil })())
	assert.False(t, ok, "a short one just answers")
}

// The answer for the kit's own targets is there in some tens of milliseconds, and stands until all are ranked.
func TestTheKitsOwnTargetsAreListedUntilAllAreRanked(t *testing.T) {
	own := facts.Ranking{Choices: make([]choose.Choice, 2)}
	all := facts.Ranking{Choices: make([]choose.Choice, 657)}
	first, then := decide.Listed(own, all)
	assert.Len(t, first.Choices, 2)
	assert.Len(t, then.Choices, 657)
}
