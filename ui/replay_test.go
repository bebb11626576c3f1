package ui_test

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui"
)

// A replay says that nothing of it is kept, in the sheet of keys and when it is left, and can be kept under a name.
func TestAReplayCanBeKeptUnderAName(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(t.TempDir(), "replays")
	s := start(t, 80, 24, func(c *ui.Config) { c.ReplaysFolder = folder })
	s.press("?").sees("nothing that you say in it is kept").press("?")
	s.press("n").press(typed("tried it")...).press("q")
	s.sees("nothing that you say in it is kept", "q leaves the program", "k keeps it under a name first", "esc goes back")
	assert.False(t, s.quit)
	s.press("esc").seesNot("leaves the program").press("q", "k").sees("keep this replay under the name (enter: 2026-12-05)")
	s.press("a", "/", "b", "enter").sees("give a name without them").press("esc", "q", "k").press(typed("first try")...)
	path := filepath.Join(folder, "first try", "journal.db")
	s.sees("Kept. To print it: duskhand record --journal")
	events, err := readAll(path)
	require.NoError(t, err)
	assert.Contains(t, string(events[len(events)-1].Body), "tried it")
	s.press("n").press(typed("again")...).press("q", "k").press(typed("first try")...).sees("there is a replay of that name already")
	s.press("q", "q")
	assert.True(t, s.quit)
}

// Who has said nothing is not asked, and a night on the disk asks nobody.
func TestLeavingAsksOnlyWhereSomethingIsLost(t *testing.T) {
	t.Parallel()
	s := start(t, 80, 24, nil).press("tab", "q")
	assert.True(t, s.quit)
	k := kit.Example()
	k.Example = false
	path := filepath.Join(t.TempDir(), "journal.db")
	s = start(t, 80, 24, func(c *ui.Config) { c.Kit, c.JournalPath = k, path }).press("n").press(typed("said")...).press("q")
	assert.True(t, s.quit)
	require.NoError(t, s.model.Close())
}
