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
