package journal_test

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"duskhand/checklist/journal"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// checkRead reads a damaged journal beside no writer and asserts the promise: what comes without an error is all
// that was confirmed, and nothing comes that was not. It tells whether there was an error.
func checkRead(t *testing.T, path string, want []journal.Event, what string) (failed bool) {
	t.Helper()
	reader, err := journal.OpenReader(path)
	if err != nil {
		return true
	}
	for _, ask := range []func() ([]journal.Event, error){
		func() ([]journal.Event, error) { return reader.Since(0) },
		func() ([]journal.Event, error) { return reader.Events(night) },
		func() ([]journal.Event, error) { return reader.Since(0) },
	} {
		got, err := ask()
		if err == nil {
			require.Equal(t, want, got, "read silently short: %s", what)
			continue
		}
		failed = true
		for _, e := range got {
			require.Equal(t, want[e.Ordinal-1], e, what)
		}
	}
	require.NoError(t, reader.Close(), what)
	return failed
}

// Bits are flipped, ends cut off and stretches zeroed, in each file of a journal, closed and killed.
func TestADamagedJournalIsNeverReadSilentlyShort(t *testing.T) {
	crashed, clean, want := left(t)
	const seed = 20261206
	random := rand.New(rand.NewPCG(seed, 0))
	damages := []struct {
		name string
		do   func([]byte) []byte
	}{
		{"a bit flipped", func(content []byte) []byte {
			content[random.IntN(len(content))] ^= 1 << random.IntN(8)
			return content
		}},
		{"a bit flipped near the start", func(content []byte) []byte {
			content[random.IntN(min(len(content), 120))] ^= 1 << random.IntN(8)
			return content
		}},
		{"its end cut off", func(content []byte) []byte { return content[:random.IntN(len(content))] }},
		{"a stretch zeroed", func(content []byte) []byte {
			from := random.IntN(len(content))
			clear(content[from:min(len(content), from+1+random.IntN(8192))])
			return content
		}},
		{"emptied", func([]byte) []byte { return []byte{} }},
		{"removed", func([]byte) []byte { return nil }},
	}
	said, tried := 0, 0
	for _, state := range []files{clean, crashed} {
		for _, end := range []string{"", "-wal", ".mark"} {
			for _, damage := range damages {
				for i := range 6 * *sweep {
					if len(state[end]) == 0 {
						continue
					}
					content := damage.do(append([]byte{}, state[end]...))
					what := fmt.Sprintf("journal.db%s, %s, number %d, seed %d", end, damage.name, i, seed)
					tried++
					if checkRead(t, state.put(t, end, content), want, what) {
						said++
					}
				}
			}
		}
	}
	assert.Greater(t, said, tried/3, "the damages are such that matter: %d of %d told", said, tried)
}

func TestAReaderTellsWhatIsMissing(t *testing.T) {
	crashed, _, want := left(t)
	reader, err := journal.OpenReader(crashed.put(t, "-wal", nil))
	require.NoError(t, err)
	got, err := reader.Since(0)
	var short *journal.ShortError
	require.ErrorAs(t, err, &short)
	require.Len(t, short.Lost, 1)
	assert.EqualValues(t, 101, short.Lost[0].From)
	assert.EqualValues(t, 160, short.Lost[0].To)
	assert.Equal(t, want[:100], got, "what there is is read all the same")
	assert.ErrorContains(t, err, "60 events that were confirmed are missing, from 101 to 160")
	require.NoError(t, reader.Close())
}

// A follower asks for what is new, again and again. It hears of a loss each time until it has been mended.
func TestAFollowerHearsOfALossEachTime(t *testing.T) {
	_, clean, want := left(t)
	content := append([]byte{}, clean[""]...)
	clear(content[3*4096 : 4*4096])
	path := clean.put(t, "", content)
	reader, err := journal.OpenReader(path)
	require.NoError(t, err)
	_, err = reader.Since(0)
	require.Error(t, err)
	for range 2 {
		_, err = reader.Since(int64(len(want)))
		require.Error(t, err, "the loss lies before what is asked for")
	}
	j := open(t, path)
	require.NoError(t, j.Close())
	got, err := reader.Since(int64(len(want)))
	require.NoError(t, err, "the salvage has told of it")
	require.Len(t, got, 1)
	assert.Equal(t, journal.KindSalvaged, got[0].Kind)
	_, err = reader.Events(night)
	require.NoError(t, err)
	require.NoError(t, reader.Close())
}

func TestAMissingMarkIsToldToReaders(t *testing.T) {
	_, clean, want := left(t)
	reader, err := journal.OpenReader(clean.put(t, ".mark", nil))
	require.NoError(t, err)
	got, err := reader.Since(0)
	var short *journal.ShortError
	require.ErrorAs(t, err, &short)
	assert.Empty(t, short.Lost)
	assert.Equal(t, want, got)
	require.NoError(t, reader.Close())
}

func TestAMissingFileIsNoJournalYetOnlyWithoutAMark(t *testing.T) {
	_, clean, _ := left(t)
	path := clean.put(t, "", nil)
	_, err := journal.OpenReader(path)
	var short *journal.ShortError
	require.ErrorAs(t, err, &short)
	assert.NotErrorIs(t, err, fs.ErrNotExist)
	require.NoError(t, os.Remove(path+".mark"))
	_, err = journal.OpenReader(path)
	assert.ErrorIs(t, err, fs.ErrNotExist)
}

// A reader beside a busy writer never takes what is being written for a loss.
func TestAReaderBesideAWriterSeesNoLoss(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	j := open(t, path)
	add(t, j, 1)
	done := make(chan struct{})
	go func() {
		defer close(done)
		for i := range 100 {
			if _, err := j.Append(night, "noted", evening, body{Count: i}); err != nil {
				t.Error(err)
			}
		}
	}()
	reader, err := journal.OpenReader(path)
	require.NoError(t, err)
	var seen int64
	for writing := true; writing; {
		select {
		case <-done:
			writing = false
		default:
		}
		got, err := reader.Since(seen)
		require.NoError(t, err)
		for _, e := range got {
			require.Equal(t, seen+1, e.Ordinal)
			seen = e.Ordinal
		}
		_, err = reader.Events(night)
		require.NoError(t, err)
	}
	assert.EqualValues(t, 101, seen)
	require.NoError(t, reader.Close())
	require.NoError(t, j.Close())
}
