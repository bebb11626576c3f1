package journal_test

import (
	"path/filepath"
	"testing"

	"duskhand/checklist/journal"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestASecondWriterIsToldWhoWrites(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	j := open(t, path)
	_, err := journal.Open(path, "second", ticking())
	var held *journal.HeldError
	require.ErrorAs(t, err, &held)
	assert.Equal(t, "test", held.Owner.Writer)
	assert.ErrorContains(t, err, "follow it, or take it over")

	require.NoError(t, j.Close())
	second, err := journal.Open(path, "second", ticking())
	require.NoError(t, err)
	require.NoError(t, second.Close())
}

func TestTakingOverFromALiveWriter(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	old := open(t, path)
	want := add(t, old, 7)

	fresh, err := journal.TakeOver(path, "fresh", ticking())
	require.NoError(t, err)
	_, reported := fresh.Salvage()
	assert.False(t, reported, "nothing is wrong with a file that is in use")
	want = append(want, add(t, fresh, 1)...)

	_, err = old.Append(night, "noted", evening, body{})
	var taken *journal.TakenOverError
	require.ErrorAs(t, err, &taken)
	assert.Equal(t, "fresh", taken.Owner.Writer)
	assert.Zero(t, old.Pending(), "an event that another program would contradict does not wait")
	require.NoError(t, old.Close())

	want = append(want, add(t, fresh, 1)...)
	_, err = journal.Open(path, "third", ticking())
	var held *journal.HeldError
	require.ErrorAs(t, err, &held, "the old one's leaving frees nothing")
	assert.Equal(t, "fresh", held.Owner.Writer)
	got, err := fresh.Since(0)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	require.NoError(t, fresh.Close())
	require.NoError(t, open(t, path).Close())
}

func TestTakingOverAmidWritesLosesNothingConfirmed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	old := open(t, path)
	confirmed := make(chan []journal.Event)
	begun := make(chan struct{})
	go func() {
		var events []journal.Event
		for i := 0; ; i++ {
			e, err := old.Append(night, "noted", evening, body{Count: i})
			if err != nil {
				confirmed <- events
				return
			}
			if events = append(events, e); i == 20 {
				close(begun)
			}
		}
	}()
	<-begun
	fresh, err := journal.TakeOver(path, "fresh", ticking())
	require.NoError(t, err)
	want := <-confirmed
	_, reported := fresh.Salvage()
	assert.False(t, reported)
	got, err := fresh.Since(0)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	require.NoError(t, old.Close())
	require.NoError(t, fresh.Close())
}
