package ui_test

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/journal"
	"duskhand/checklist/unwritten"
	"duskhand/ui"
)

// The journal's folder can't be made, and later it can: the disk is full, and has room again.
func TestLeavingOnADiskThatCannotBeWritten(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	inTheWay := filepath.Join(t.TempDir(), "state")
	require.NoError(t, os.WriteFile(inTheWay, nil, 0o600))
	path := filepath.Join(inTheWay, "journal.db")
	own := func(c *ui.Config) { c.Kit.Example, c.JournalPath = false, path }

	notes := func(s *session, text string) {
		s.press("n")
		for _, r := range text {
			s.press(string(r))
		}
		s.press("enter")
	}
	for _, text := range []string{"first", "second"} { // the second session, too, meets a full disk
		s := start(t, 100, 30, own)
		notes(s, text)
		s.press("q").sees("Not left yet", "memory only", "once more")
		require.False(t, s.quit)
		s.press("q")
		require.True(t, s.quit)
		err := s.model.Close()
		require.ErrorContains(t, err, "duskhand record --import "+os.TempDir())
		assert.NotContains(t, err.Error(), "do not close")
	}
	files, err := unwritten.Waiting(path)
	require.Error(t, err, "beside the journal nothing can be looked for")
	require.Len(t, files, 2)

	require.NoError(t, os.Remove(inTheWay))
	s := start(t, 100, 30, own)
	s.sees("could not be written when the program was left; they are in the journal now")
	s.press("esc").press("q")
	require.True(t, s.quit)
	require.NoError(t, s.model.Close())
	j, err := journal.OpenReader(path)
	require.NoError(t, err)
	events, err := j.Since(0)
	require.NoError(t, err)
	require.NoError(t, j.Close())
	var said []string
	for _, e := range events {
		if e.Kind == "noted" {
			said = append(said, string(e.Body))
		}
	}
	assert.Equal(t, []string{`{"text":"first"}`, `{"text":"second"}`}, said)
	files, err = unwritten.Waiting(path)
	require.NoError(t, err)
	assert.Empty(t, files)
}

// The folder of the journal goes while the screens run: they notice by themselves, and nothing said is lost.
func TestTheJournalsFolderIsRemovedWhileTheScreensRun(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Log("there what is open can't be removed")
		return
	}
	t.Setenv("TMPDIR", t.TempDir())
	folder := filepath.Join(t.TempDir(), "state")
	path := filepath.Join(folder, "journal.db")
	s := start(t, 100, 30, func(c *ui.Config) { c.Kit.Example, c.JournalPath = false, path })
	s.press("n", "a", "enter")
	require.NoError(t, os.RemoveAll(folder))
	s.wait(time.Second).sees("had been removed or replaced while the program ran", "written anew")
	s.press("n", "b", "enter")
	require.NoError(t, os.RemoveAll(folder))
	s.press("n", "c", "enter").sees("written anew")
	require.NoError(t, os.RemoveAll(folder))
	s.press("q")
	require.True(t, s.quit)
	require.NoError(t, s.model.Close())
	j, err := journal.OpenReader(path)
	require.NoError(t, err)
	events, err := j.Since(0)
	require.NoError(t, err)
	require.NoError(t, j.Close())
	var kinds []string
	for _, e := range events {
		kinds = append(kinds, e.Kind)
	}
	assert.Equal(t, []string{"night-opened", "noted", "noted", "noted"}, kinds)
}
