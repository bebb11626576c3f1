package decide_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
