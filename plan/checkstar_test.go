package plan_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/sky"
)

func TestTheCheckStarFindsAMistake(t *testing.T) {
	h, aim := handmadePairs()
	h.add("Impostor", 2, 44, 226) // 6° under Near, easily taken for it
	s := h.sky()
	pairs := s.Pairs(aim, 0)
	i := slices.IndexFunc(pairs, func(p plan.Pair) bool { return names(p) == [2]string{"Nearly", "Near"} })
	require.GreaterOrEqual(t, i, 0)
	pair := pairs[i]
	check, ok := s.CheckStar(pair)
	require.True(t, ok)
	assert.Equal(t, "Far", check.Star.Star.Name(), "the brightest of those that tell")
	assert.Equal(t, "Impostor", check.Second.Taken)
	assert.False(t, check.First.OK, "nothing stands near the first")
	assert.Greater(t, check.Second.Off, 2*sky.Degree)
	assert.Less(t, check.Second.Off, 8*sky.Degree, "the mount turns by no more than the mistake, and a little lever")
	assert.Greater(t, check.Expected, pair.Pointing, "it stands on the other side of the sky")
}

// By hand: pair and check star on the horizon at right angles to a third direction. With both stars shifted
// alike along the horizon the sky turns by half the mistake about the zenith: the mismatch is split.
func TestTheMistakeIsSplitBetweenTheTwo(t *testing.T) {
	h := newHandmade()
	h.kit.Stars.Lowest = 5 * sky.Degree
	h.add("A", 1, 30, 90)
	h.add("B", 1.1, 30, 270)
	h.add("C", 1.2, 30, 180)
	h.add("Wrong A", 2, 40, 90) // 10° up the same vertical: A and B lie in it, so the plane stays
	h.kit.Stars.Farthest = 160 * sky.Degree
	s := h.sky()
	for _, p := range s.Pairs(altaz(60, 180), 0) {
		if p.First.Star.Name()+p.Second.Star.Name() != "AB" && p.First.Star.Name()+p.Second.Star.Name() != "BA" {
			continue
		}
		check, ok := s.CheckStar(p)
		require.True(t, ok)
		mistake := check.First
		if p.Second.Star.Name() == "A" {
			mistake = check.Second
		}
		require.True(t, mistake.OK)
		// The turn is 5° about the south point of the horizon, from which C stands 30°: the chord is
		// 2·asin(sin 30°·sin 2.5°) = 2.4995°.
		assert.Equal(t, "C", check.Star.Star.Name())
		assert.InDelta(t, 2.4995, mistake.Off.Degrees(), 0.001)
		return
	}
	t.Fatal("A and B make no pair")
}

func TestTheCheckStarIsAThirdFitOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, aim := anySky(t)
		for _, p := range s.Pairs(aim, 2) {
			check, ok := s.CheckStar(p)
			require.Equal(t, len(s.Fit) > 2, ok)
			if ok {
				require.NotEqual(t, p.First.Star.ID, check.Star.Star.ID)
				require.NotEqual(t, p.Second.Star.ID, check.Star.Star.ID)
				require.Contains(t, s.Fit, check.Star)
			}
		}
	})
}
