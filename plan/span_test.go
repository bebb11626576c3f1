package plan_test

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
)

// Spans against the plainest model of them: the set of their minutes.

var noonOfSpans = time.Date(2026, 12, 5, 2, 0, 0, 0, time.UTC)

func minutesFrom(from, to int) plan.Span {
	return plan.Span{From: noonOfSpans.Add(time.Duration(from) * time.Minute), To: noonOfSpans.Add(time.Duration(to) * time.Minute)}
}

func anySpan(t *rapid.T, name string) plan.Span {
	from := rapid.IntRange(0, 60).Draw(t, name+", from")
	return minutesFrom(from, from+rapid.IntRange(0, 40).Draw(t, name+", for"))
}

func minutesIn(spans ...plan.Span) map[int]bool {
	in := map[int]bool{}
	for minute := range 120 {
		for _, s := range spans {
			if s.Contains(noonOfSpans.Add(time.Duration(minute) * time.Minute)) {
				in[minute] = true
			}
		}
	}
	return in
}

func TestSpansAreSetsOfMinutes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anySpan(t, "a"), anySpan(t, "b")
		require.Len(t, minutesIn(a), int(a.Length().Minutes()))
		both := 0
		inB := minutesIn(b)
		for minute := range minutesIn(a) {
			if inB[minute] {
				both++
			}
		}
		require.Equal(t, float64(both), a.Overlap(b).Minutes())
		require.Equal(t, a.Overlap(b), b.Overlap(a))
		require.Equal(t, a.Overlap(b), max(0, a.Common(b).Length()))
		require.Equal(t, a.Common(b), b.Common(a))
	})
}

func TestWhatIsLeftOfASpan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := anySpan(t, "whole")
		var others []plan.Span
		for range rapid.IntRange(0, 5).Draw(t, "others") {
			others = append(others, anySpan(t, "other"))
		}
		slices.SortFunc(others, func(a, b plan.Span) int { return a.From.Compare(b.From) })
		parts := whole.Without(others)
		want := minutesIn(whole)
		for minute := range minutesIn(others...) {
			delete(want, minute)
		}
		require.Equal(t, want, minutesIn(parts...))
		for i, part := range parts {
			require.Positive(t, part.Length(), "no part without length")
			require.True(t, i == 0 || !part.From.Before(parts[i-1].To), "in order, none over another")
		}
	})
}

func TestEndsOfSpans(t *testing.T) {
	for _, c := range []struct {
		name    string
		a, b    plan.Span
		overlap time.Duration
	}{
		{"one within the other", minutesFrom(0, 60), minutesFrom(10, 20), 10 * time.Minute},
		{"one after the other", minutesFrom(0, 10), minutesFrom(10, 20), 0},
		{"far apart", minutesFrom(0, 10), minutesFrom(50, 60), 0},
		{"the same", minutesFrom(5, 9), minutesFrom(5, 9), 4 * time.Minute},
		{"one of no length", minutesFrom(5, 5), minutesFrom(0, 9), 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.overlap, c.a.Overlap(c.b))
			assert.True(t, c.a.Length() == 0 || c.a.Contains(c.a.From), "its beginning is in it")
			assert.False(t, c.a.Contains(c.a.To), "its end is not")
		})
	}
}
