package fallback

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
)

const sheltered = "2026-12-05"

var dusk = time.Date(2026, 12, 5, 11, 0, 0, 0, time.UTC)

// shelter is a refuge of a night of which the disk has two events already.
func shelter(t *testing.T) (r *Fallback, path string, open func() *journal.Journal) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "journal.db")
	now := func() time.Time { return dusk }
	open = func() *journal.Journal {
		j, err := journal.Open(path, "test", now)
		require.NoError(t, err)
		return j
	}
	j := open()
	for range 3 { // of another night, so that ordinals differ
		_, err := j.Append("2026-12-04", "noted", dusk, map[string]string{})
		require.NoError(t, err)
	}
	note(t, j, 0)
	note(t, j, 1)
	require.NoError(t, j.Close())
	r, before, err := InMemory(Config{Writer: "test", Now: func() time.Time { return dusk }, Path: path}, sheltered)
	require.NoError(t, err)
	require.Len(t, before, 2)
	return r, path, open
}

func note(t *testing.T, store Store, n int) journal.Event {
	t.Helper()
	e, err := store.Append(sheltered, "noted", dusk.Add(time.Duration(n)*time.Minute), map[string]string{"text": fmt.Sprint(n)})
	require.NoError(t, err)
	return e
}

// texts are the notes of the night on the disk, and what is undone by its text.
func texts(t *testing.T, open func() *journal.Journal) []string {
	t.Helper()
	j := open()
	events, err := j.Events(sheltered)
	require.NoError(t, errors.Join(err, j.Close()))
	byOrdinal, list := map[int64]string{}, []string{}
	for _, e := range events {
		if e.Kind == checklist.KindUndone {
			var body checklist.UndoneBody
			require.NoError(t, json.Unmarshal(e.Body, &body))
			list = append(list, "undo "+byOrdinal[body.Ordinal])
			continue
		}
		var body map[string]string
		require.NoError(t, json.Unmarshal(e.Body, &body))
		byOrdinal[e.Ordinal] = body["text"]
		list = append(list, body["text"])
	}
	return list
}

// failing is a journal whose disk gives out after some events, or that another program takes.
type failing struct {
	Store
	after int
	with  error
}

func (f *failing) Append(night, kind string, at time.Time, body any) (journal.Event, error) {
	if f.after--; f.after < 0 && f.with != nil {
		return journal.Event{}, f.with
	}
	return f.Store.Append(night, kind, at, body)
}

func TestTheRefugeBringsTheNightToTheDiskOnce(t *testing.T) {
	r, _, open := shelter(t)
	note(t, r, 2)
	third := note(t, r, 3)
	_, err := r.Append(sheltered, checklist.KindUndone, dusk, checklist.UndoneBody{Ordinal: third.Ordinal})
	require.NoError(t, err)
	assert.Equal(t, 3, r.Pending())
	opened := r.open
	r.open = func() (Store, error) { return nil, errors.New("no room") }
	require.ErrorContains(t, r.Retry(), "no room")
	r.open = opened
	require.NoError(t, r.Retry())
	require.NoError(t, r.Retry())
	assert.Zero(t, r.Pending())
	note(t, r, 4)
	require.NoError(t, r.Close())
	assert.Equal(t, []string{"0", "1", "2", "3", "undo 3", "4"}, texts(t, open))
}

// The journal opens, takes some, and fails: wherever that is, nothing is written twice and nothing is left out.
func TestAHandOverThatFailsHalfWayGoesOnWhereItWas(t *testing.T) {
	for after := range 5 {
		r, _, open := shelter(t)
		want := []string{"0", "1"}
		for n := range 4 {
			note(t, r, 10+n)
			want = append(want, fmt.Sprint(10+n))
		}
		opened := r.open
		r.open = func() (Store, error) {
			j, err := opened()
			return &failing{j, after, errors.New("taken")}, err
		}
		if after < 4 {
			require.ErrorContains(t, r.Retry(), "taken")
			assert.Equal(t, 4-after, r.Pending())
		}
		note(t, r, 20)
		r.open = opened
		require.NoError(t, r.Retry())
		require.NoError(t, r.Close())
		assert.Equal(t, append(want, "20"), texts(t, open), "after %d", after)
	}
}

// filling is a journal by its contract whose disk is full after some events: what comes then waits in memory and
// counts, until there is room.
type filling struct {
	*journal.Journal
	room  int
	waits []journal.Event
}

func (f *filling) Append(night, kind string, at time.Time, body any) (journal.Event, error) {
	if f.Retry() == nil && f.room > 0 { // what waits goes first
		f.room--
		return f.Journal.Append(night, kind, at, body)
	}
	all, err := f.Since(0)
	if err != nil {
		return journal.Event{}, err
	}
	encoded, err := json.Marshal(body)
	f.waits = append(f.waits, journal.Event{Ordinal: int64(len(all) + len(f.waits) + 1), Night: night, Kind: kind, At: at, Body: encoded})
	return f.waits[len(f.waits)-1], errors.Join(err, f.full())
}

func (f *filling) full() error {
	if len(f.waits) == 0 {
		return nil
	}
	return &journal.WaitingError{Count: len(f.waits), Cause: errors.New("no room")}
}

func (f *filling) Pending() int { return len(f.waits) }

func (f *filling) Retry() error {
	for ; len(f.waits) > 0 && f.room > 0; f.room-- {
		e := f.waits[0]
		if _, err := f.Journal.Append(e.Night, e.Kind, e.At, e.Body); err != nil {
			return err
		}
		f.waits = f.waits[1:]
	}
	return f.full()
}

func (f *filling) Unwritten() []journal.Event { return f.waits }

func (f *filling) Close() error {
	return errors.Join(f.full(), f.Journal.Close())
}

// The disk fills up again while the journal takes what was said, wherever that is, and has room later or never.
func TestAHandOverToADiskThatFillsUp(t *testing.T) {
	for room := range 6 {
		for _, later := range []bool{true, false} {
			r, _, open := shelter(t)
			want := []string{"0", "1"}
			for n := range 5 {
				note(t, r, 10+n)
				want = append(want, fmt.Sprint(10+n))
			}
			disk := &filling{Journal: open(), room: room}
			r.open = func() (Store, error) { return disk, nil }
			if room < 5 {
				require.ErrorContains(t, r.Retry(), "no room")
				assert.Equal(t, 5-room, r.Pending())
			}
			note(t, r, 20)
			if !later {
				require.ErrorContains(t, r.Close(), "no room")
				assert.Len(t, r.Unwritten(), 6-room)
				assert.Equal(t, append(want, "20")[:2+room], texts(t, open))
				continue
			}
			disk.room = 100
			require.NoError(t, r.Retry())
			assert.Zero(t, r.Pending())
			require.NoError(t, r.Close())
			assert.Equal(t, append(want, "20"), texts(t, open), "room for %d", room)
		}
	}
}

// What the disk has of the night and can't be read is said, and what can be is used.
func TestTheRefugeSaysWhatItCannotRead(t *testing.T) {
	_, path, _ := shelter(t)
	require.NoError(t, os.WriteFile(path, []byte("no database at all, but long enough to look at"), 0o600))
	r, before, err := InMemory(Config{Writer: "test", Now: func() time.Time { return dusk }, Path: path}, sheltered)
	require.Error(t, err)
	require.NotNil(t, r)
	assert.Empty(t, before)
	r, _, err = InMemory(Config{Writer: "test", Now: func() time.Time { return dusk }, Path: path + ".none"}, sheltered)
	require.NoError(t, err, "no journal yet is no trouble")
	require.NotNil(t, r)
}
