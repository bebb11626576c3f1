package share_test

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/share"
)

// Of a divided night all the dark is accounted for, and what is idle has its reason: never that it is another's turn.
func TestNoIdleDarkOfADividedNightIsWithoutAReason(t *testing.T) {
	for _, c := range []struct {
		name string
		subs int
		last plan.Why // why nothing is done at the end
	}{
		{"forty subs each are soon taken", 40, plan.GoalReached},
		{"more is wanted than the night gives", 4000, -1},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := kit.Example()
			k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: time.Minute, Count: c.subs}}
			k.Subs.WorthARewind = 0
			night := plan.NewNight(k, exampleDate)
			s, err := share.Divide(night, k.Axis, nil, share.Equally(k, k.Targets[:2]), share.UsualRules())
			require.NoError(t, err)
			require.Len(t, s.Stretches, 2)
			idle := s.Idle(night.Dark)
			var spans []plan.Span
			for _, i := range idle {
				spans = append(spans, i.Span)
				assert.False(t, i.Why == plan.WindowClosed && i.Bound == plan.ByTurn, "%v", i)
			}
			for _, st := range s.Stretches {
				spans = append(spans, plan.Span{From: st.From, To: st.Ready})
				for _, run := range st.Runs.Runs {
					spans = append(spans, run.Span)
				}
				for _, rewind := range st.Runs.Rewinds {
					spans = append(spans, rewind.Span)
				}
			}
			for _, dark := range night.Dark {
				assert.Empty(t, dark.Without(sorted(spans)), "unaccounted for")
			}
			if c.last >= 0 {
				require.NotEmpty(t, idle)
				last := idle[len(idle)-1]
				assert.Equal(t, c.last, last.Why)
				assert.Equal(t, night.Dark[len(night.Dark)-1].To, last.To)
			}
		})
	}
}

func sorted(spans []plan.Span) []plan.Span {
	slices.SortFunc(spans, func(a, b plan.Span) int { return a.From.Compare(b.From) })
	return spans
}
