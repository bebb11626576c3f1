package facts_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan/kit"
)

// The third star is settled with the pair: the next minutes name no other, while it is fit.
func TestTheCheckStarStaysAsItWasChosenWithThePair(t *testing.T) {
	n := &night{t: t, kit: kit.Example()}
	since := dusk.Add(-40 * time.Minute)
	stars := n.at(since).Tonight.StarsAt(since)
	require.NotEmpty(t, stars.Pairs)
	n.log.Centred = []checklist.Centred{{At: since, Star: stars.Pairs[0].First.Star.Name()}}
	chosen, ok := n.at(since).Tonight.StarsAt(since).Check(0)
	require.True(t, ok)
	anew := false
	for now := since; now.Before(since.Add(3 * time.Hour)); now = now.Add(10 * time.Minute) {
		s := n.at(now).Tonight.StarsAt(now)
		require.NotEmpty(t, s.Pairs)
		if _, fit := s.Sky.CheckStarNamed(s.Pairs[0], chosen.Star.Star.Name()); !fit {
			break
		}
		other, _ := s.Sky.CheckStar(s.Pairs[0])
		anew = anew || other.Star.Star.ID != chosen.Star.Star.ID
		check, ok := s.Check(0)
		require.True(t, ok)
		assert.Equal(t, chosen.Star.Star.Name(), check.Star.Star.Name(), "%s", now)
	}
	assert.True(t, anew, "another would have been chosen meanwhile")
}
