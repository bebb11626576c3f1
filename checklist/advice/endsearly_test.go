package advice_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan"
)

// A stage that stops at its ends only may be at the wrong one for a field that reverses: the run is ended before its
// limit where a rewind then buys more than one at the limit. Of the seeds from 900 to 2,600 four are such.
func TestARunEndsEarlyWhereARewindThenBuysMore(t *testing.T) {
	for _, seed := range []uint64{1032, 1445} {
		t.Run(fmt.Sprintf("seed %d", seed), func(t *testing.T) {
			n, ok := randomNight(t, rand.New(rand.NewPCG(seed, 2029)))
			require.True(t, ok)
			require.False(t, n.kit.Derotator.StopsAnywhere)
			begin, _ := nightOf(n)
			first := n.at(begin).Next()
			require.True(t, first.OK)
			n.say(first.Begins, checklist.TurnOn{Angle: &first.To})
			n.say(first.Begins.Add(time.Second), checklist.StartSubs{})
			m := n.at(first.Begins.Add(time.Minute))
			limit := m.Course.LastSubBy(m.Call.Limit, m.Call.Window.To)
			require.Equal(t, plan.ForLimit, m.Call.For)
			require.True(t, m.Call.By.Before(limit), "it ends early")
			subs, after := plan.NewSequence(n.kit.Subs).Run(first.Begins.Add(time.Second), limit)
			stands := m.Held(m.Course.Angle(*m.Anchor, limit))
			later := m.Course.Schedule(plan.Start{At: limit, Stage: &stands, Between: true}, after).Exposed()
			exposure := n.kit.Subs.Filters[0].Exposure
			early, full := time.Duration(len(m.Call.Subs))*exposure+m.Ahead().Exposed(), time.Duration(len(subs))*exposure+later
			assert.Greater(t, early, full+3*time.Minute)
		})
	}
}
