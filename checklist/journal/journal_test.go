package journal_test

import (
	"database/sql"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"duskhand/checklist/journal"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// evening is the instant at which the test nights begin.
var evening = time.Date(2026, 12, 5, 11, 30, 0, 123456789, time.UTC)

const night = "2026-12-05"

// ticking returns a clock that goes on by a second at each look.
func ticking() func() time.Time {
	t := evening
	return func() time.Time {
		t = t.Add(time.Second)
		return t
	}
}

func open(t *testing.T, path string) *journal.Journal {
	t.Helper()
	j, err := journal.Open(path, "test", ticking())
	require.NoError(t, err)
	return j
}

type body struct {
	Count int    `json:"count"`
	Text  string `json:"text,omitempty"`
}

func add(t *testing.T, j *journal.Journal, count int) (events []journal.Event) {
	t.Helper()
	for i := range count {
		e, err := j.Append(night, "noted", evening.Add(time.Duration(i)*time.Minute), body{Count: i})
		require.NoError(t, err)
		events = append(events, e)
	}
	return events
}

func TestWhatIsAppendedIsReadBack(t *testing.T) {
	makers := map[string]func() (*journal.Journal, error){
		"on disk": func() (*journal.Journal, error) {
			return journal.Open(filepath.Join(t.TempDir(), "new folder?", "a%20b", "journal.db"), "test", ticking())
		},
		"in memory": func() (*journal.Journal, error) { return journal.InMemory("test", ticking()) },
	}
	for name, make := range makers {
		t.Run(name, func(t *testing.T) {
			j, err := make()
			require.NoError(t, err)
			first := add(t, j, 3)
			other, err := j.Append("2026-12-06", "of a newer version", evening, map[string]any{"x": []int{1}})
			require.NoError(t, err)

			assert.Equal(t, []int64{1, 2, 3, 4}, []int64{first[0].Ordinal, first[1].Ordinal, first[2].Ordinal, other.Ordinal})
			assert.JSONEq(t, `{"count":1}`, string(first[1].Body))
			assert.Equal(t, evening, first[0].At, "to the nanosecond, in UTC")
			got, err := j.Events(night)
			require.NoError(t, err)
			assert.Equal(t, first, got)
			got, err = j.Since(2)
			require.NoError(t, err)
			assert.Equal(t, []journal.Event{first[2], other}, got)
			nights, err := j.Nights()
			require.NoError(t, err)
			assert.Equal(t, []string{night, "2026-12-06"}, nights)
			_, reported := j.Salvage()
			assert.False(t, reported)
			require.NoError(t, j.Close())
		})
	}
}

func TestReopeningGoesOnWithTheNextOrdinal(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	j := open(t, path)
	want := add(t, j, 5)
	require.NoError(t, j.Close())

	j = open(t, path)
	_, reported := j.Salvage()
	assert.False(t, reported)
	want = append(want, add(t, j, 1)...)
	got, err := j.Since(0)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	assert.EqualValues(t, 6, got[5].Ordinal)
	require.NoError(t, j.Close())
}

func TestTheFolderIsPrivate(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "state")
	j := open(t, filepath.Join(folder, "journal.db"))
	info, err := os.Stat(folder)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o700), info.Mode().Perm())
	require.NoError(t, j.Close())
}

func TestABodyThatIsNoJSONIsRefusedAndTakesNoOrdinal(t *testing.T) {
	j, err := journal.InMemory("test", ticking())
	require.NoError(t, err)
	_, err = j.Append(night, "noted", evening, math.NaN())
	require.ErrorContains(t, err, `writing "noted" to the journal`)
	assert.Zero(t, j.Pending())
	assert.EqualValues(t, 1, add(t, j, 1)[0].Ordinal)
	require.NoError(t, j.Close())
}

func TestTheFileRefusesToChangeEvents(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	j := open(t, path)
	want := add(t, j, 3)
	require.NoError(t, j.Close())

	db, err := sql.Open("sqlite", path)
	require.NoError(t, err)
	defer db.Close()
	for statement, refusal := range map[string]string{
		`UPDATE events SET body = '{}' WHERE ordinal = 2`: "never changed",
		`DELETE FROM events WHERE ordinal = 2`:            "never erased",
		`DELETE FROM events`:                              "never erased",
		`INSERT OR REPLACE INTO events SELECT ordinal, night, 0, written_ns, writer, kind, body, checksum
			FROM events WHERE ordinal = 2`: "never replaced",
	} {
		_, err := db.Exec(statement)
		assert.ErrorContains(t, err, refusal, statement)
	}
	require.NoError(t, db.Close())
	j = open(t, path)
	got, err := j.Since(0)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	require.NoError(t, j.Close())
}

func TestAReaderSeesNewEventsAndCannotWrite(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	_, err := journal.OpenReader(path)
	require.ErrorIs(t, err, fs.ErrNotExist)

	j := open(t, path)
	reader, err := journal.OpenReader(path)
	require.NoError(t, err)
	var seen []journal.Event
	var want []journal.Event
	for range 20 {
		want = append(want, add(t, j, 1)...)
		fresh, err := reader.Since(int64(len(seen)))
		require.NoError(t, err)
		seen = append(seen, fresh...)
	}
	assert.Equal(t, want, seen)
	_, err = reader.Append(night, "noted", evening, body{})
	require.ErrorIs(t, err, journal.ErrReader)
	require.NoError(t, j.Close())

	j = open(t, path) // the reader stays while the writer changes
	want = append(want, add(t, j, 1)...)
	got, err := reader.Since(0)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	require.NoError(t, reader.Close())
	require.NoError(t, j.Close())
}

func TestBackupsAreWholeAndTheLastTenStay(t *testing.T) {
	folder := t.TempDir()
	j := open(t, filepath.Join(folder, "journal.db"))
	want := add(t, j, 4)
	var last string
	for range 13 {
		var err error
		last, err = j.Backup()
		require.NoError(t, err)
	}
	copies, err := os.ReadDir(filepath.Join(folder, "backups"))
	require.NoError(t, err)
	assert.Len(t, copies, 10)
	assert.Equal(t, filepath.Base(last), copies[9].Name(), "the newest stays")

	reader, err := journal.OpenReader(last)
	require.NoError(t, err)
	got, err := reader.Since(0)
	var unproved *journal.ShortError // a copy has no mark
	require.ErrorAs(t, err, &unproved)
	assert.Empty(t, unproved.Lost)
	assert.Equal(t, want, got)
	require.NoError(t, reader.Close())
	require.NoError(t, j.Close())
}

// The addresses are those of RFC 8089, appendix E.2, and of the SQLite documentation.
func TestAddressesOfFiles(t *testing.T) {
	for path, want := range map[string]string{
		"/home/anna/journal.db":           "file:///home/anna/journal.db",
		"/home/anna/50 % #1?/journal.db":  "file:///home/anna/50%20%25%20%231%3F/journal.db",
		"C:/Users/Anna Müller/journal.db": "file:///C:/Users/Anna%20M%C3%BCller/journal.db",
		"//server/share/anna/journal.db":  "file:////server/share/anna/journal.db",
	} {
		assert.Equal(t, want, journal.AddressOf(path))
	}
}
