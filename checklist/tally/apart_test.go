package tally_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/kit"
)

// Subs of a minute from ten minutes before dark on: those that begin before it, or end after it is over, are no part of
// what is wanted.
func TestSubsInTwilightCountApart(t *testing.T) {
	k := kit.Example()
	k.Subs = kit.Subs{InARow: 1, Filters: []kit.Filter{{Name: "L", Exposure: time.Minute, Count: 30}}}
	begins := time.Date(2026, 12, 5, 11, 0, 0, 0, time.UTC)
	stretch := checklist.Subs{Start: begins, End: begins.Add(20 * time.Minute)}
	log := checklist.Night{Runs: []checklist.Run{{Start: begins, End: stretch.End, Subs: []checklist.Subs{stretch}}}}
	dark := []plan.Span{{From: begins.Add(10*time.Minute + 30*time.Second), To: begins.Add(18*time.Minute + 30*time.Second)}}
	subs := tally.Count(k, log, "target")
	require.Len(t, subs.Runs[0], 20)
	subs.Apart(func(*checklist.Target) []plan.Span { return dark })
	assert.Equal(t, []int{13}, subs.Early, "eleven before, two after")
	assert.Equal(t, []int{7}, subs.Sequence("target").Taken())

	insisted := tally.Insisted(plan.NewSequence(k.Subs), begins, dark)
	progress := insisted.Progress(begins, begins.Add(15*time.Minute))
	require.Len(t, progress.Done, 15)
	assert.Equal(t, []int{4}, progress.After.Taken(), "of the stretch that goes on, too")
}
