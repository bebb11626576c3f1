package command_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/checklist/unwritten"
	"duskhand/ui/command"
)

func TestRecordImportsWhatWaited(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	s := inTheDark(t)
	s.tell("note", "before")
	waits := event(t, 3, checklist.KindNoted, s.now, checklist.NotedBody{Text: "in memory only"})
	f, err := unwritten.Of("/another/place/journal.db", []journal.Event{waits}, s.now)
	require.NoError(t, err)
	file, err := unwritten.Keep(f)
	require.NoError(t, err)
	require.Equal(t, command.Done, s.run("", "record", "--import", file), s.err)
	assert.Equal(t, "1 event taken in; 0 were in the journal already\n", s.out)
	require.Equal(t, command.Done, s.run("", "record", "--import", file), s.err)
	assert.Equal(t, "0 events taken in; 1 were in the journal already\n", s.out)
	assert.FileExists(t, file, "it is the person's")
	require.Equal(t, command.Done, s.run("", "record"), s.err)
	assert.Contains(t, s.out, "in memory only")

	list := filepath.Join(t.TempDir(), "list")
	require.NoError(t, os.WriteFile(list, []byte("milk"), 0o600))
	assert.Equal(t, command.Failed, s.run("", "record", "--import", list))
	assert.Contains(t, s.err, "is not a file of events that waited for the journal")
	assert.Equal(t, command.Failed, s.run("", "record", "--import", s.journal()))
	assert.Contains(t, s.err, "that is the journal itself")
	assert.Equal(t, command.WrongUse, s.run("", "record", "--import", file, "--json"))
	writer, err := journal.Open(s.journal(), "test", func() time.Time { return s.now })
	require.NoError(t, err)
	assert.Equal(t, command.Failed, s.run("", "record", "--import", file))
	assert.Contains(t, s.err, "leave that program, then import")
	require.NoError(t, writer.Close())
}

func TestTellTakesInWhatWaitsForTheJournal(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	s := inTheDark(t)
	s.tell("note", "before")
	waits := event(t, 3, checklist.KindNoted, s.now, checklist.NotedBody{Text: "in memory only"})
	f, err := unwritten.Of(s.journal(), []journal.Event{waits}, s.now)
	require.NoError(t, err)
	file, err := unwritten.Keep(f)
	require.NoError(t, err)
	s.tell("note", "after")
	assert.Contains(t, s.err, "1 event could not be written when the program was left")
	assert.NoFileExists(t, file)
	assert.Equal(t, []string{checklist.KindNightOpened, checklist.KindNoted, checklist.KindNoted, checklist.KindNoted}, s.kinds())
}
