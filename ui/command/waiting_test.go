package command_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/checklist/unwritten"
	"duskhand/ui/command"
)

// While events of the night lie in a file beside the journal, nobody is told what holds without them as if it held.
func TestWhatWaitsBesideTheJournalIsSaid(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	s := inTheDark(t)
	s.tell("derotator-on", "-16")
	waits := event(t, -1, checklist.KindDerotatorOff, s.now, struct{}{})
	waits.Night = "2026-12-05"
	f, err := unwritten.Of(s.journal(), []journal.Event{waits}, s.now)
	require.NoError(t, err)
	_, err = unwritten.Keep(f)
	require.NoError(t, err)

	code, answer := s.room(60)
	assert.Equal(t, unknown, code)
	assert.Contains(t, *answer.Why, "1 event of tonight could not be written when the program was left and is not in the journal yet")
	require.Equal(t, command.Done, s.run("", "glance", "--once", "--width", "200"), s.err)
	assert.Contains(t, s.out, "1 event not in the journal yet")

	s.tell("note", "all is well") // takes it in
	code, answer = s.room(60)
	assert.Equal(t, unknown, code)
	assert.Contains(t, *answer.Why, "the derotator is off")
	s.run("", "glance", "--once", "--width", "200")
	assert.NotContains(t, s.out, "not in the journal")
}

// A flag behind the event would be taken for a word of the note.
func TestAFlagBehindTheEventIsNoWord(t *testing.T) {
	s := inTheDark(t)
	assert.Equal(t, command.WrongUse, s.run("", "tell", "note", "hello", "--kit", "other.toml"))
	assert.Contains(t, s.err, "--kit stands behind the event")
	assert.Equal(t, command.WrongUse, s.run("", "tell", "note", "hello", "--wait=3"))
	assert.Equal(t, command.Done, s.run("", "tell", "note", "--", "-16 is -- as it should be"), s.err)
}
