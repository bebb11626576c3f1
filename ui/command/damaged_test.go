package command_test

import (
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/ui/command"
)

// killed leaves a journal as a program does that is killed: what it wrote last is in the write-ahead log only.
// Its last two events are the derotator turned on and turned off.
func killed(t *testing.T, s *shell) {
	t.Helper()
	s.tell("target", "NGC 2070")
	writer, err := journal.Open(s.journal(), "test", func() (now time.Time) { return s.now })
	require.NoError(t, err)
	angle := -16.0
	_, err = writer.Append("2026-12-05", checklist.KindDerotatorOn, s.now, checklist.DerotatorOnBody{AngleDeg: &angle})
	require.NoError(t, err)
	_, err = writer.Append("2026-12-05", checklist.KindDerotatorOff, s.now, struct{}{})
	require.NoError(t, err)
	left := map[string][]byte{}
	for _, end := range []string{"", "-wal", ".mark"} {
		left[end], err = os.ReadFile(s.journal() + end)
		require.NoError(t, err)
	}
	require.NoError(t, writer.Close())
	for end, content := range left {
		require.NoError(t, os.WriteFile(s.journal()+end, content, 0o600))
	}
}

// flipLast flips one bit of the last frame of the write-ahead log, which SQLite then drops without a word.
func flipLast(t *testing.T, s *shell) {
	t.Helper()
	log, err := os.ReadFile(s.journal() + "-wal")
	require.NoError(t, err)
	log[len(log)-5] ^= 4
	require.NoError(t, os.WriteFile(s.journal()+"-wal", log, 0o600))
}

// One bit, and the word that the derotator is off is gone: no reader may answer as if it had never been said.
func TestNoReaderAnswersFromADamagedJournal(t *testing.T) {
	s := inTheDark(t)
	killed(t, s)
	assert.Equal(t, unknown, s.run("", "room", "60"))
	assert.Contains(t, s.err, "the derotator is off")
	flipLast(t, s)
	const why = "event 4 was confirmed and is missing"
	code, answer := s.room(60)
	assert.Equal(t, unknown, code)
	assert.Equal(t, "unknown", answer.Answer)
	assert.Contains(t, *answer.Why, why)
	assert.Equal(t, unknown, s.run("", "room", "60"))
	assert.Empty(t, s.out)
	assert.Contains(t, s.err, why)

	assert.Equal(t, command.Failed, s.run("", "record"))
	assert.Contains(t, s.out, "Night of 2026-12-05", "what there is is printed all the same")
	assert.Contains(t, s.err, "this record may be short")
	assert.Contains(t, s.err, why)
	assert.Equal(t, command.Failed, s.run("", "glance", "--once"))
	assert.Empty(t, s.out)
	assert.Contains(t, s.err, why)
	require.Equal(t, command.Done, s.run("", "targets", "--on", "2026-12-05"))
	assert.Contains(t, s.err, why)

	s.tell("note", "mended")
	assert.Contains(t, s.err, "The journal was damaged")
	code, answer = s.room(60)
	assert.Equal(t, unknown, code)
	assert.Contains(t, *answer.Why, "the derotator is off", "salvaged")
	require.Equal(t, command.Done, s.run("", "record"))
	assert.Empty(t, s.err)
}
