package unwritten_test

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/checklist/unwritten"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const night = "2026-12-05"

var dusk = time.Date(2026, 12, 5, 11, 0, 0, 123, time.UTC)

func now() time.Time { return dusk }

func event(ordinal int64, kind string, body any) journal.Event {
	raw, err := json.Marshal(body)
	if err != nil {
		panic(err)
	}
	return journal.Event{Ordinal: ordinal, Night: night, At: dusk.Add(time.Duration(ordinal) * time.Second), Written: dusk, Kind: kind, Body: raw}
}

// waited are two notes, the second with what JSON escapes, of which the first and one of the journal's are undone.
func waited() []journal.Event {
	return []journal.Event{
		event(5, "noted", map[string]string{"text": "one"}), event(6, "noted", map[string]string{"text": "<two> & ü"}),
		event(7, checklist.KindUndone, checklist.UndoneBody{Ordinal: 5}), event(8, checklist.KindUndone, checklist.UndoneBody{Ordinal: 2}),
	}
}

// opened is a journal of three notes.
func opened(t *testing.T) (j *journal.Journal, path string) {
	t.Helper()
	t.Setenv("TMPDIR", t.TempDir())
	path = filepath.Join(t.TempDir(), "journal.db")
	j, err := journal.Open(path, "test", now)
	require.NoError(t, err)
	for range 3 {
		_, err := j.Append(night, "noted", dusk, map[string]string{})
		require.NoError(t, err)
	}
	return j, path
}

func kept(t *testing.T, path string, events []journal.Event) string {
	t.Helper()
	f, err := unwritten.Of(path, events, dusk)
	require.NoError(t, err)
	at, err := unwritten.Keep(f)
	require.NoError(t, err)
	return at
}

// undone returns what each undo of the journal names.
func undone(t *testing.T, events []journal.Event) (ordinals []int64) {
	t.Helper()
	for _, e := range events {
		if e.Kind == checklist.KindUndone {
			var body checklist.UndoneBody
			require.NoError(t, json.Unmarshal(e.Body, &body))
			ordinals = append(ordinals, body.Ordinal)
		}
	}
	return ordinals
}

func TestWhatIsKeptIsTakenInOnce(t *testing.T) {
	j, path := opened(t)
	for n := range 3 { // so that ordinals differ from those that it waited for
		_, err := j.Append(night, "noted", dusk, map[string]int{"n": n})
		require.NoError(t, err)
	}
	f, err := unwritten.Read(kept(t, path, waited()))
	require.NoError(t, err)
	for round, want := range []int{4, 0, 0} {
		added, err := unwritten.TakeIn(j, f, nil)
		require.NoError(t, err)
		assert.Equal(t, want, added, "round %d", round)
	}
	all, err := j.Since(0)
	require.NoError(t, err)
	require.Len(t, all, 10)
	assert.JSONEq(t, `{"text":"<two> & ü"}`, string(all[7].Body))
	assert.Equal(t, waited()[1].At, all[7].At)
	assert.Equal(t, []int64{7, 2}, undone(t, all))
	require.NoError(t, j.Close())
}

// failing is a journal whose disk gives out after some events.
type failing struct {
	*journal.Journal
	after int
}

func (f *failing) Append(night, kind string, at time.Time, body any) (journal.Event, error) {
	if f.after--; f.after < 0 {
		return journal.Event{}, errors.New("no room")
	}
	return f.Journal.Append(night, kind, at, body)
}

func TestWhatFailsHalfWayIsGoneOnWith(t *testing.T) {
	for after := range 4 {
		j, path := opened(t)
		at := kept(t, path, waited())
		assert.Contains(t, unwritten.TakeInAll(&failing{j, after}, path), "What waits in "+at+" is not all in the journal yet and stays there: no room")
		assert.FileExists(t, at)
		assert.Contains(t, unwritten.TakeInAll(j, path), "could not be written when the program was left; they are in the journal now")
		assert.NoFileExists(t, at)
		assert.Empty(t, unwritten.TakeInAll(j, path))
		all, err := j.Since(0)
		require.NoError(t, err)
		assert.Len(t, all, 7)
		assert.Equal(t, []int64{4, 2}, undone(t, all))
		require.NoError(t, j.Close())
	}
}

func TestAFileIsNeverOverwrittenAndNobodyElseReadsIt(t *testing.T) {
	j, path := opened(t)
	first, second := kept(t, path, waited()[:1]), kept(t, path, waited()[1:])
	assert.NotEqual(t, first, second)
	assert.Equal(t, filepath.Dir(path), filepath.Dir(filepath.Dir(first)), "beside the journal, which outlasts a restart")
	if runtime.GOOS != "windows" {
		for name, mode := range map[string]os.FileMode{first: 0o600, filepath.Dir(first): 0o700} {
			info, err := os.Lstat(name)
			require.NoError(t, err)
			assert.Equal(t, mode, info.Mode().Perm())
		}
	}
	files, err := unwritten.Waiting(path)
	require.NoError(t, err)
	assert.Len(t, files, 2)
	require.NoError(t, j.Close())
}

func TestAFolderThatIsOpenToOthersOrALinkIsPassedOver(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Log("there the folder of temporary files is each user's own")
		return
	}
	j, path := opened(t)
	at := kept(t, path, waited())
	elsewhere := filepath.Join(t.TempDir(), "elsewhere")
	require.NoError(t, os.Rename(filepath.Dir(at), elsewhere))
	require.NoError(t, os.Symlink(elsewhere, filepath.Dir(at)))
	assert.Empty(t, unwritten.TakeInAll(j, path))
	require.NoError(t, os.Remove(filepath.Dir(at)))
	require.NoError(t, os.Rename(elsewhere, filepath.Dir(at)))
	require.NoError(t, os.Chmod(filepath.Dir(at), 0o777))
	assert.Empty(t, unwritten.TakeInAll(j, path))
	require.NoError(t, os.Chmod(filepath.Dir(at), 0o700))
	assert.Contains(t, unwritten.TakeInAll(j, path), "4 events")
	require.NoError(t, j.Close())
}

func TestWhatBelongsToAnotherJournalIsPassedOver(t *testing.T) {
	j, path := opened(t)
	kept(t, filepath.Join(os.TempDir(), "of another.db"), waited())
	assert.Empty(t, unwritten.TakeInAll(j, path))
	require.NoError(t, j.Close())
}

func TestAFileOfAnotherKindOrChangedIsRefused(t *testing.T) {
	j, path := opened(t)
	whole, err := os.ReadFile(kept(t, path, waited()))
	require.NoError(t, err)
	require.NoError(t, j.Close())
	changed := append([]byte{}, whole...)
	for i := range changed {
		if string(changed[i:i+3]) == "one" {
			changed[i] = 'O'
			break
		}
	}
	for name, test := range map[string]struct {
		content []byte
		want    string
	}{
		"a shopping list":  {[]byte("milk"), "is not a file of events"},
		"other JSON":       {[]byte(`{"events":[]}`), "is not a file of events"},
		"empty":            {nil, "is not a file of events"},
		"its end cut off":  {whole[:len(whole)-20], "is not a file of events"},
		"a letter changed": {changed, "has been changed or damaged"},
	} {
		file := filepath.Join(t.TempDir(), "file")
		require.NoError(t, os.WriteFile(file, test.content, 0o600))
		_, err := unwritten.Read(file)
		require.ErrorContains(t, err, test.want, name)
		assert.ErrorContains(t, err, file, name)
	}
}

func TestAnotherJournalIsTakenIn(t *testing.T) {
	other, otherPath := opened(t)
	_, err := other.Append(night, checklist.KindUndone, dusk, checklist.UndoneBody{Ordinal: 3})
	require.NoError(t, err)
	require.NoError(t, other.Close())
	path := filepath.Join(t.TempDir(), "journal.db")
	j, err := journal.Open(path, "test", now)
	require.NoError(t, err)
	_, err = j.Append(night, "noted", dusk, map[string]string{"text": "own"})
	require.NoError(t, err)
	f, err := unwritten.Read(otherPath)
	require.NoError(t, err)
	for _, want := range []int{4, 0} {
		added, err := unwritten.TakeIn(j, f, nil)
		require.NoError(t, err)
		assert.Equal(t, want, added)
	}
	all, err := j.Since(0)
	require.NoError(t, err)
	assert.Equal(t, []int64{4}, undone(t, all))
	require.NoError(t, j.Close())
}
