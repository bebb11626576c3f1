package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
)

// With its first star settled, the pairs are those of the whole list that have it, in the same order of worth,
// and with the same errors: the errors do not depend on which star comes first.
func TestPairsWithASettledFirstAreThoseOfTheListThatHaveIt(t *testing.T) {
	h, aim := handmadePairs()
	s := h.sky()
	for _, c := range s.Fit {
		first := c.Star.Name()
		var want []plan.Pair
		for _, p := range s.Pairs(aim, 0) {
			if p.First == c || p.Second == c {
				want = append(want, p)
			}
		}
		got := s.PairsWith(first, aim, 0)
		require.Len(t, got, len(want), first)
		for i, p := range got {
			assert.Equal(t, c, p.First)
			assert.ElementsMatch(t, []string{want[i].First.Star.Name(), want[i].Second.Star.Name()}, []string{first, p.Second.Star.Name()})
			assert.InEpsilon(t, float64(want[i].Pointing), float64(p.Pointing), 1e-12, "the same sum in another order")
			assert.InEpsilon(t, float64(want[i].Roll), float64(p.Roll), 1e-12)
		}
	}
	assert.Empty(t, s.PairsWith("Nowhere", aim, 0))
}

func TestAStarThatWasNotFoundIsInNoPair(t *testing.T) {
	h, aim := handmadePairs()
	s := h.sky().Without("Near")
	for _, p := range append(s.Pairs(aim, 0), s.PairsWith("Nearly", aim, 0)...) {
		assert.NotContains(t, names(p), "Near")
	}
	assert.Len(t, s.Fit, 4)
}

func TestThePairOfTwoStarsStandsWhetherTheyAreFitOrNot(t *testing.T) {
	h, aim := handmadePairs()
	h.add("Sunken", 1.1, 5, 200) // under the lowest altitude
	s := h.sky()
	p, ok := s.PairOf("Sunken", "Near", aim)
	require.True(t, ok)
	assert.Equal(t, [2]string{"Sunken", "Near"}, names(p))
	assert.Positive(t, p.Pointing)
	_, ok = s.PairOf("Sunken", "Nowhere", aim)
	assert.False(t, ok)
	leaving := s.LeavingOf("Sunken")
	assert.True(t, leaving.OK)
	assert.Equal(t, s.At, leaving.At)
	assert.Equal(t, plan.TooLow, leaving.By)
}
