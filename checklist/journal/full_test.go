package journal_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"duskhand/checklist/journal"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAFullDiskKeepsTheNightInMemory(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	j := open(t, path)
	want := add(t, j, 2)
	require.NoError(t, j.LimitPages(0))
	for i := range 3 {
		e, err := j.Append(night, "noted", evening, body{Text: strings.Repeat("long ", 2000)})
		var waiting *journal.WaitingError
		require.ErrorAs(t, err, &waiting)
		assert.Equal(t, i+1, waiting.Count)
		assert.ErrorContains(t, err, "in memory")
		want = append(want, e)
	}
	assert.Equal(t, 3, j.Pending())
	require.Error(t, j.Retry())
	got, err := j.Events(night)
	require.NoError(t, err)
	assert.Equal(t, want, got, "the night goes on")

	require.NoError(t, j.LimitPages(1000))
	want = append(want, add(t, j, 1)...) // takes the waiting ones along
	assert.Zero(t, j.Pending())
	require.NoError(t, j.Close())
	j = open(t, path)
	_, reported := j.Salvage()
	assert.False(t, reported)
	got, err = j.Since(0)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	require.NoError(t, j.Close())
}

func TestAReadOnlyDiskKeepsTheNightInMemory(t *testing.T) {
	j := open(t, filepath.Join(t.TempDir(), "journal.db"))
	require.NoError(t, j.MakeReadOnly(true))
	_, err := j.Append("2026-12-31", "noted", evening, body{})
	var waiting *journal.WaitingError
	require.ErrorAs(t, err, &waiting)
	nights, err := j.Nights()
	require.NoError(t, err)
	assert.Equal(t, []string{"2026-12-31"}, nights)
	require.NoError(t, j.MakeReadOnly(false))
	require.NoError(t, j.Retry())
	assert.Zero(t, j.Pending())
	require.NoError(t, j.Close())
}

func TestClosingSaysWhatCouldNotBeWritten(t *testing.T) {
	j := open(t, filepath.Join(t.TempDir(), "journal.db"))
	require.NoError(t, j.MakeReadOnly(true))
	_, err := j.Append(night, "noted", evening, body{})
	require.Error(t, err)
	var waiting *journal.WaitingError
	require.ErrorAs(t, j.Close(), &waiting)
	assert.Equal(t, 1, waiting.Count)
}

func TestAnOlderFileIsBackedUpAndMigrated(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	j := open(t, path)
	want := add(t, j, 3)
	require.NoError(t, j.Close())

	j, err := journal.OpenWithNextFormat(path, ticking())
	require.NoError(t, err)
	_, reported := j.Salvage()
	assert.False(t, reported)
	got, err := j.Since(0)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	require.NoError(t, j.Close())

	copies, err := filepath.Glob(path + ".format-1-*")
	require.NoError(t, err)
	require.Len(t, copies, 1)
	reader, err := journal.OpenReader(copies[0])
	require.NoError(t, err)
	got, err = reader.Since(0)
	var unproved *journal.ShortError // a copy has no mark
	require.ErrorAs(t, err, &unproved)
	assert.Empty(t, unproved.Lost)
	assert.Equal(t, want, got)
	require.NoError(t, reader.Close())

	before, err := os.ReadFile(path)
	require.NoError(t, err)
	_, err = journal.Open(path, "test", ticking())
	var newer *journal.NewerError
	require.ErrorAs(t, err, &newer, "an older program leaves a newer file alone")
	assert.Equal(t, &journal.NewerError{Version: 2, Known: 1}, newer)
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, before, after)
}
