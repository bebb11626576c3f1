package plan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/plan"
	"duskhand/plan/kit"
)

func TestOnlyOneFilter(t *testing.T) {
	at := time.Date(2026, 12, 5, 12, 0, 0, 0, time.UTC)
	all := plan.NewSequence(kit.Subs{InARow: 2, Overhead: 5 * time.Second, DitherEvery: 3, DitherSettle: 10 * time.Second,
		Filters: []kit.Filter{{Name: "L", Exposure: 60 * time.Second, Count: 4}, {Name: "R", Exposure: 90 * time.Second, Count: 1}}})
	_, ok := all.Only("Ha")
	assert.False(t, ok)

	red, ok := all.Only("R")
	assert.True(t, ok)
	// 95 s a sub and 10 s for the dither after the third: 4 subs are exposed after 95·3 + 10 + 90 = 385 s.
	p := red.Progress(at, at.Add(385*time.Second))
	assert.Len(t, p.Done, 4, "past the wanted count")
	assert.Equal(t, []int{0, 4}, p.After.Taken())
	assert.False(t, p.After.Done(), "L is still wanted")

	back, _ := p.After.Only("")
	subs, after := back.Run(at, at.Add(time.Hour))
	assert.Len(t, subs, 4, "of R enough are taken")
	assert.Equal(t, []int{4, 4}, after.Taken())
	assert.True(t, after.Done())
}

// Who takes subs through one filter by name is called when that has all that is wanted of it, and not at the limit hours
// later; who goes on with one that has all of them already has a reason, and is left alone.
func TestAStretchThroughOneFilterEndsWithItsGoal(t *testing.T) {
	course, start, _ := scheduled(true)
	subs := course.Kit.Subs
	subs.Filters = []kit.Filter{{Name: "L", Exposure: time.Minute, Count: 40}, {Name: "R", Exposure: time.Minute, Count: 40}}
	windows := course.Windows()
	anchor := plan.Anchor{At: windows[0].From, Angle: course.Schedule(start, plan.NewSequence(subs)).Runs[0].StartAngle}
	for _, c := range []struct {
		name  string
		taken int
		want  int
		why   plan.Reason
	}{{"nothing is taken", 0, 40, plan.ForGoal}, {"some are", 30, 10, plan.ForGoal}} {
		t.Run(c.name, func(t *testing.T) {
			one, _ := plan.NewSequence(subs).Skip("L", c.taken).Only("L")
			call, ok := course.CallWhile(windows, anchor, windows[0].From, one)
			assert.True(t, ok)
			assert.Len(t, call.Subs, c.want)
			assert.Equal(t, c.why, call.For)
			assert.Equal(t, []int{40, 0}, call.After.Taken())
			assert.False(t, call.After.Done(), "R is still wanted")
			taken, next, ok := call.FilterTaken()
			assert.True(t, ok)
			assert.Equal(t, []string{"L", "R"}, []string{taken, next})
		})
	}
	more, _ := plan.NewSequence(subs).Skip("L", 40).Only("L")
	call, _ := course.CallWhile(windows, anchor, windows[0].From, more)
	assert.NotEqual(t, plan.ForGoal, call.For)
	assert.NotEmpty(t, call.Subs)
	_, _, ok := call.FilterTaken()
	assert.False(t, ok, "the run ends for another reason")

	last, _ := plan.NewSequence(subs).Skip("L", 40).Skip("R", 35).Only("R")
	call, _ = course.CallWhile(windows, anchor, windows[0].From, last)
	assert.Equal(t, plan.ForGoal, call.For)
	_, _, ok = call.FilterTaken()
	assert.False(t, ok, "all are taken then, not R alone")
}
