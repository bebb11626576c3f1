package plan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/plan"
	"duskhand/plan/kit"
)

func ordered() kit.Subs {
	return kit.Subs{InARow: 1, FilterChange: 10 * time.Second, Refocus: 20 * time.Second, Filters: []kit.Filter{
		{Name: "L", Exposure: time.Minute, Count: 3}, {Name: "R", Exposure: time.Minute, Count: 2}, {Name: "Ha", Exposure: time.Minute, Count: 2, FocusOffsetUM: -30}}}
}

func filtersOf(subs []plan.Sub) (all []string) {
	for _, sub := range subs {
		all = append(all, sub.Filter.Name)
	}
	return all
}

func TestASequenceFollowsItsOrderAndThenTakesTurns(t *testing.T) {
	s := plan.NewSequence(ordered()).InOrder([]plan.FilterCount{{Filter: "Ha", Count: 2}, {Filter: "none of the kit's", Count: 9}, {Filter: "L", Count: 1}})
	subs, after := s.Run(evening, after(60))
	assert.Equal(t, []string{"Ha", "Ha", "L", "R", "L", "R", "L"}, filtersOf(subs))
	assert.True(t, after.Done())
	assert.Empty(t, after.Order())
}

func TestWhatIsTakenOutOfTurnIsOffTheOrder(t *testing.T) {
	s := plan.NewSequence(ordered()).InOrder([]plan.FilterCount{{Filter: "Ha", Count: 2}, {Filter: "L", Count: 2}, {Filter: "R", Count: 1}})
	s = s.Take("L").Take("Ha")
	assert.Equal(t, []plan.FilterCount{{Filter: "Ha", Count: 1}, {Filter: "L", Count: 1}, {Filter: "R", Count: 1}}, s.Order())
	subs, _ := s.Run(evening, after(3.9))
	assert.Equal(t, []string{"Ha", "L", "R"}, filtersOf(subs))
	assert.Len(t, plan.NewSequence(ordered()).InOrder(s.Order()).InOrder(nil).Order(), 0)
}

func TestAChangeOfFilterTakesItsTime(t *testing.T) {
	s := plan.NewSequence(ordered()).InOrder([]plan.FilterCount{{Filter: "L", Count: 3}, {Filter: "R", Count: 2}, {Filter: "Ha", Count: 2}})
	subs, _ := s.Run(evening, after(60))
	var pauses []time.Duration
	for i, sub := range subs[1:] {
		pauses = append(pauses, sub.Exposure.From.Sub(subs[i].Exposure.To))
	}
	assert.Equal(t, []time.Duration{0, 0, 10 * time.Second, 0, 30 * time.Second, 0}, pauses)
}
