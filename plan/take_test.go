package plan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/kit"
)

// Taking the subs one by one that Next proposes leaves the sequence as Next does; taking others counts them and
// leaves the turns to follow from the last.
func TestTakeFollowsNext(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		subs := kit.Subs{InARow: rapid.IntRange(1, 4).Draw(t, "in a row"), DitherEvery: rapid.IntRange(0, 3).Draw(t, "dither"), Filters: []kit.Filter{
			{Name: "L", Exposure: time.Minute, Count: rapid.IntRange(1, 9).Draw(t, "L")}, {Name: "R", Exposure: time.Minute, Count: rapid.IntRange(1, 9).Draw(t, "R")}}}
		next, taken := plan.NewSequence(subs), plan.NewSequence(subs)
		for {
			sub, after, ok := next.Next(time.Time{})
			if !ok {
				break
			}
			next, taken = after, taken.Take(sub.Filter.Name)
			assert.Equal(t, next, taken)
		}
		assert.Equal(t, taken, taken.Take("no such filter"))
	})
}
