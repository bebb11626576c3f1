package plan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
)

// The last sub that is called for ends, with its overhead, before the early bound less the margin and
// before its window closes; the next would not.
func TestTheCalledSubEndsInTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		course := anyCourse(t)
		windows := course.Windows()
		if len(windows) == 0 {
			return
		}
		d := course.Kit.Derotator
		window := windows[rapid.IntRange(0, len(windows)-1).Draw(t, "window")]
		since := window.From.Add(time.Duration(rapid.Float64Range(0, 1).Draw(t, "since") * float64(window.Length())))
		if !since.Before(window.To) {
			return
		}
		anchor := plan.Anchor{At: since, Angle: course.LongestRun(since, window.To).Start}
		sequence := plan.NewSequence(course.Kit.Subs)
		call, ok := course.CallWhile(windows, anchor, since, sequence)
		require.True(t, ok)
		require.Equal(t, window, call.Window, "the run keeps the window that it began in")
		early := course.Limit(anchor, window.To).Early
		for _, sub := range call.Subs {
			require.False(t, sub.Over.After(window.To))
			require.False(t, early.OK && sub.Over.After(early.At.Add(-d.Margin)))
		}
		if next, _, ok := call.After.Next(call.At); ok {
			inTime := !next.Over.After(window.To) && (!early.OK || !next.Over.After(early.At.Add(-d.Margin)))
			require.False(t, inTime, "one more would have fitted")
		} else {
			require.Equal(t, plan.ForGoal, call.For)
		}
	})
}

// Subs begun before the keyhole are called at the keyhole's edge, and not at the limit of the window
// behind it.
func TestTheKeyholeEndsTheRunBeforeIt(t *testing.T) {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	course := night.Course(k.Targets[1], k.Axis)
	windows := course.Windows()
	require.Len(t, windows, 2)
	since := windows[0].To.Add(-10 * time.Minute)
	anchor := plan.Anchor{At: since, Angle: 0}
	call, ok := course.CallWhile(windows, anchor, since, plan.NewSequence(k.Subs))
	require.True(t, ok)
	assert.Equal(t, plan.ForWindow, call.For)
	assert.False(t, call.At.After(windows[0].To))
	assert.Less(t, windows[0].To.Sub(call.At), 3*time.Minute, "and the last sub that fits is taken")

	_, ok = course.CallWhile(windows, anchor, windows[1].To, plan.NewSequence(k.Subs))
	assert.False(t, ok, "after the last window there is nothing to call")
}

// Without subs the call comes when the next could no longer be over in time.
func TestCallBeforeSubsAreStarted(t *testing.T) {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	course := night.Course(k.Targets[0], k.Axis)
	windows := course.Windows()
	now := windows[0].From
	anchor := plan.Anchor{At: now, Angle: k.Derotator.Min}
	call, ok := course.CallBefore(windows, anchor, now, plan.NewSequence(k.Subs))
	require.True(t, ok)
	assert.True(t, call.Rewind())
	first := k.Subs.Filters[0].Exposure + k.Subs.Overhead
	assert.Equal(t, call.By.Add(-first), call.At)
	assert.Equal(t, call.Limit.Early.At.Add(-k.Derotator.Margin), call.By)
}
