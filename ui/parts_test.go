package ui_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/sky"
	"duskhand/ui"
)

func TestStackDropsInOrderAndNeverOverflows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		height := rapid.IntRange(0, 60).Draw(t, "height")
		names := []string{"a", "b", "c", "d", "e"}
		var parts []ui.Part
		for i, name := range names {
			rows := rapid.IntRange(1, 9).Draw(t, name)
			least := rapid.IntRange(1, rows).Draw(t, "min "+name)
			if i == 0 {
				least = 1 // as the answer's is
			}
			parts = append(parts, ui.NewPart(name, rows, least, i))
		}
		bands := ui.Stack(height, parts, "a")
		next := 0
		for i, name := range names {
			band := bands[name]
			require.Equal(t, next, band[0], "one below the other")
			next += band[1]
			if i > 0 && band[1] > 0 {
				require.Positive(t, bands[names[i-1]][1], "rank %d is gone before rank %d", i, i-1)
			}
		}
		require.LessOrEqual(t, next, height)
		if height > 0 {
			require.Positive(t, bands["a"][1], "the first rank stays longest")
		}
	})
}

func TestCountdownNeverMixesItsUnits(t *testing.T) {
	for _, c := range []struct {
		left   time.Duration
		digits string
		unit   string
	}{
		{0, "0:00", "minutes and seconds"},
		{-time.Minute, "0:00", "minutes and seconds"},
		{59*time.Second + 999*time.Millisecond, "0:59", "minutes and seconds"},
		{59*time.Minute + 59*time.Second, "59:59", "minutes and seconds"},
		{time.Hour, "1h00", "hours and minutes"},
		{76*time.Minute + 59*time.Second, "1h16", "hours and minutes"},
		{11*time.Hour + 5*time.Minute, "11h05", "hours and minutes"},
	} {
		digits, unit := ui.Countdown(c.left)
		assert.Equal(t, c.digits, digits, c.left)
		assert.Equal(t, c.unit, unit, c.left)
	}
}

func TestWords(t *testing.T) {
	assert.Equal(t, "45 s", ui.Duration(45*time.Second))
	assert.Equal(t, "16 min", ui.Duration(16*time.Minute+20*time.Second))
	assert.Equal(t, "1 h", ui.Duration(time.Hour-time.Second))
	assert.Equal(t, "1 h 52 min", ui.Duration(112*time.Minute))
	assert.Equal(t, "2 h", ui.Duration(2*time.Hour))
	assert.Equal(t, "north", ui.CompassWords(359*sky.Degree))
	assert.Equal(t, "south-south-east", ui.CompassWords(152*sky.Degree))
	assert.Equal(t, "SSE", ui.Letters(152*sky.Degree))
	assert.Equal(t, "0°", ui.WholeDegrees(359.6*sky.Degree))
}

// The table of keys: each has help, no two that are enabled at once share a key, and each does
// something.
func TestKeysAreDistinctAndHelpful(t *testing.T) {
	s := start(t, 80, 24, nil)
	for _, screen := range []string{"run", "night", "two stars", "focus star", "frame", "steps"} {
		taken := map[string]string{}
		for _, b := range s.model.Keys().All() {
			require.NotEmpty(t, b.Words)
			require.NotEmpty(t, b.Shown)
			if !b.Possible {
				continue
			}
			for _, k := range b.Keys {
				require.Empty(t, taken[k], "%q says %q and %q on %s", k, taken[k], b.Words, screen)
				taken[k] = b.Words
			}
		}
		s.press("tab")
	}
}

func TestEachKeyDoesSomething(t *testing.T) {
	for _, k := range []string{"o", "r", "a", "s", "u", "tab", "g", "?", "q"} {
		s := start(t, 80, 24, nil)
		before := s.text()
		s.press(k)
		assert.True(t, s.quit || s.text() != before, "key %s", k)
	}
	// These need a state in which they are possible.
	s := start(t, 80, 24, nil)
	s.press("s")
	before := s.text()
	s.press("space")
	assert.NotEqual(t, before, s.text(), "space starts the subs again")
	s.press("s", "t").sees("NGC 1365")
	s.press("u").sees("NGC 2070")
	s.press("y").sees("NGC 1365")
	s = start(t, 40, 16, nil)
	s.press("tab")
	before = s.text()
	s.press("down", "down")
	assert.NotEqual(t, before, s.text(), "down the list")
	s.press("up", "up")
	assert.Equal(t, before, s.text(), "and up")
}
