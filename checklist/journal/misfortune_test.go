package journal_test

import (
	"errors"
	"math/rand/v2"
	"path/filepath"
	"testing"
	"time"

	"duskhand/checklist/journal"

	"github.com/stretchr/testify/require"
)

// misfortunes are what can happen to those who write a journal. None costs an event that was confirmed.
func misfortunes() map[string]func(t *testing.T, random *rand.Rand, what string) {
	return map[string]func(*testing.T, *rand.Rand, string){
		"kill":        killed,
		"clock":       clockJumps,
		"two writers": twoWriters,
	}
}

// killed kills a writer some moments after its first event.
func killed(t *testing.T, random *rand.Rand, what string) {
	path := filepath.Join(t.TempDir(), "journal.db")
	confirmed := killedWriter(t, path, time.Duration(random.IntN(10_000))*time.Microsecond)
	requireAll(t, path, confirmed, what)
}

// clockJumps sets the computer's clock to any time of the century before each event.
func clockJumps(t *testing.T, random *rand.Rand, what string) {
	path := filepath.Join(t.TempDir(), "journal.db")
	at := func() time.Time { return evening.Add(time.Duration(random.Int64N(1 << 61))) }
	j, err := journal.Open(path, "test", at)
	require.NoError(t, err, what)
	var confirmed []journal.Event
	for i := range 1 + random.IntN(30) {
		e, err := j.Append(night, "noted", at(), body{Count: i})
		require.NoError(t, err, what)
		confirmed = append(confirmed, e)
		if random.IntN(8) == 0 {
			require.NoError(t, j.Close(), what)
			j, err = journal.Open(path, "test", at)
			require.NoError(t, err, what)
		}
	}
	require.NoError(t, j.Close(), what)
	requireAll(t, path, confirmed, what)
}

// twoWriters lets two programs take one journal from each other, while a third that only asks is refused. Who lost it
// is told at its next event, which is not confirmed.
func twoWriters(t *testing.T, random *rand.Rand, what string) {
	path := filepath.Join(t.TempDir(), "journal.db")
	holder, err := journal.Open(path, "first", ticking())
	require.NoError(t, err, what)
	var confirmed []journal.Event
	for round := range 1 + random.IntN(6) {
		_, err := journal.Open(path, "third", ticking())
		var held *journal.HeldError
		require.ErrorAs(t, err, &held, what)
		next, err := journal.TakeOver(path, "next", ticking())
		require.NoError(t, err, what)
		for i := range 2 * (1 + random.IntN(5)) {
			writer := []*journal.Journal{holder, next}[i%2]
			e, err := writer.Append(night, "noted", evening, body{Count: 100*round + i})
			if writer == next {
				require.NoError(t, err, what)
				confirmed = append(confirmed, e)
				continue
			}
			var over *journal.TakenOverError
			require.ErrorAs(t, err, &over, what)
		}
		require.True(t, onlyWaiting(holder.Close()), what)
		holder = next
	}
	require.NoError(t, holder.Close(), what)
	requireAll(t, path, confirmed, what)
}

// onlyWaiting tells whether a journal closed with nothing amiss but events that it had not been able to write.
func onlyWaiting(err error) bool {
	var waiting *journal.WaitingError
	return err == nil || errors.As(err, &waiting)
}

// requireAll holds that a journal opens without a loss and has each event as it was confirmed, and no ordinal twice.
func requireAll(t *testing.T, path string, confirmed []journal.Event, what string) {
	t.Helper()
	j := open(t, path)
	_, reported := j.Salvage()
	require.False(t, reported, what)
	got, err := j.Since(0)
	require.NoError(t, err, what)
	there := map[int64]journal.Event{}
	for _, e := range got {
		require.NotContains(t, there, e.Ordinal, what)
		there[e.Ordinal] = e
	}
	for _, e := range confirmed {
		require.Equal(t, e, there[e.Ordinal], what)
	}
	require.NoError(t, j.Close(), what)
}
