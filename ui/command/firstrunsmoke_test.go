//go:build !windows

package command_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/journal"
	"duskhand/plan/kit"
)

// The real binary with a fresh home: from the example by one key through the form to a night of one's own,
// with its kit and journal on the disk.
func TestSmokeFromTheExampleToOnesOwnNight(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	term := openTerminalIn(t, buildBinary(t), home, 80, 24)
	term.sees("make a kit of your own")
	term.press("K")
	term.sees("A kit of your own")
	for _, answer := range []string{"Dry Lake", "-31.95, 141.5, 210 m", "Australia/Broken_Hill", "80", "480", "3.76", "6248", "4176",
		"-16", "16", "anywhere", "120", "0.5", "", "", "", "L 60 120,R,G,B 120 40"} {
		term.press(answer + "\r")
	}
	term.press("\x1b")
	term.sees("EXAMPLE NIGHT")
	term.press("K")
	term.press("NGC 253")
	term.sees("complete: ctrl+s writes it")
	term.press("\x13")
	term.sees("of this stage left")
	assert.NotContains(t, term.screen(), "EXAMPLE")
	assert.Contains(t, term.screen(), "Dry Lake")

	path := filepath.Join(home, "duskhand", "kit.toml")
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	k, err := kit.Read(data, path)
	require.NoError(t, err)
	assert.Equal(t, "Dry Lake", k.Site.Name)
	assert.InDelta(t, 210, k.Site.Place.ElevationMetres, 0)

	term.press("n")
	term.sees("note:")
	term.press("first night\r")
	term.sees("undo: note")
	term.press("q")
	select {
	case err := <-term.done:
		require.NoError(t, err)
	case <-time.After(10 * time.Second):
		t.Fatal("q did not end the program")
	}
	j, err := journal.OpenReader(filepath.Join(home, "duskhand", "journal.db"))
	require.NoError(t, err)
	events, err := j.Since(0)
	require.NoError(t, err)
	require.NoError(t, j.Close())
	require.NotEmpty(t, events)
	assert.Contains(t, string(events[0].Body), path, "the night was opened with the new kit, and holds nothing of the example")
	assert.Contains(t, string(events[len(events)-1].Body), "first night")
}
