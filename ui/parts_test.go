package ui_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

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
