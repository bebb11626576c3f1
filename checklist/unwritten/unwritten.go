// Package unwritten keeps what could not be written to the journal, because its disk was full or read-only, in a
// file until a journal takes it in.
//
// Such a file lies in a folder of its own with a name that chance makes, 0700, beside the journal or, where that
// can't be written either, among the temporary files. It is never overwritten, and is removed only when all of it
// is in the journal, on the disk.
package unwritten

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
)

// format is how a file of this kind says that it is one.
const format = "duskhand, events not in the journal, format 1"

// File is what such a file holds.
type File struct {
	Path    string    // where it was read; "" for one that is yet to be kept
	Journal string    // the path of the journal that could not be written
	Kept    time.Time // when it was made, UTC
	// Events in the order in which they were said. Their ordinals are −1, −2 …: they have none of the journal's.
	// An undo names one of them, or with a positive number an event that the journal has. In what was read from a
	// journal each has the ordinal that it bears there.
	Events []journal.Event
}

// Of returns what is kept of events that could not be written to the journal at a path.
func Of(journalPath string, events []journal.Event, now time.Time) (File, error) {
	number := map[int64]int64{}
	for i, e := range events {
		number[e.Ordinal] = -int64(i + 1)
	}
	f := File{Journal: journalPath, Kept: now.UTC()}
	for _, e := range events {
		body, err := checklist.Renumbered(e.Kind, e.Body, throughMap(number))
		if err != nil {
			return File{}, fmt.Errorf("keeping %q: %w", e.Kind, err)
		}
		e.Ordinal, e.Body = number[e.Ordinal], body
		f.Events = append(f.Events, e)
	}
	return f, nil
}

func throughMap(number map[int64]int64) func(int64) int64 {
	return func(old int64) int64 {
		if n, ok := number[old]; ok {
			return n
		}
		return old
	}
}

// document is a File as JSON.
type document struct {
	Format  string          `json:"format"`
	Journal string          `json:"journal"`
	Kept    time.Time       `json:"kept_utc"`
	Sum     string          `json:"sha256"` // of the events, without blanks
	Events  json.RawMessage `json:"events"`
}

// entry is one event of it.
type entry struct {
	Number  int64           `json:"number"`
	Night   string          `json:"night"`
	At      time.Time       `json:"at_utc"`
	Said    time.Time       `json:"said_utc"`
	Writer  string          `json:"writer"`
	Kind    string          `json:"kind"`
	Content json.RawMessage `json:"body"`
}

func (f File) encode() ([]byte, error) {
	var entries []entry
	for _, e := range f.Events {
		entries = append(entries, entry{e.Ordinal, e.Night, e.At, e.Written, e.Writer, e.Kind, e.Body})
	}
	events, err := json.Marshal(entries)
	if err != nil {
		return nil, err
	}
	return json.MarshalIndent(document{format, f.Journal, f.Kept, sum(events), events}, "", "  ")
}

func sum(events []byte) string {
	s := sha256.Sum256(events)
	return hex.EncodeToString(s[:])
}

// Read returns what the file at path holds: one that was kept, or a journal, as one that was set aside or a backup
// copy.
//
// Error: it can't be read, is of another kind, or was cut or changed since.
func Read(path string) (File, error) {
	content, err := os.ReadFile(path)
	if err != nil {
		return File{}, err
	}
	if bytes.HasPrefix(content, []byte("SQLite format 3\x00")) {
		return readJournal(path)
	}
	var d document
	if err := json.Unmarshal(content, &d); err != nil || d.Format != format {
		return File{}, fmt.Errorf("%s is not a file of events that waited for the journal, nor a journal; "+
			"give the file that duskhand named when it was left", path)
	}
	var compact bytes.Buffer
	var entries []entry
	if err := errors.Join(json.Compact(&compact, d.Events), json.Unmarshal(d.Events, &entries)); err != nil || sum(compact.Bytes()) != d.Sum {
		return File{}, fmt.Errorf("%s has been changed or damaged since it was written: its events do not prove themselves", path)
	}
	f := File{Path: path, Journal: d.Journal, Kept: d.Kept}
	for _, e := range entries {
		var body bytes.Buffer
		if err := json.Compact(&body, e.Content); err != nil {
			return File{}, fmt.Errorf("%s: %w", path, err)
		}
		f.Events = append(f.Events, journal.Event{Ordinal: e.Number, Night: e.Night, At: e.At, Written: e.Said,
			Writer: e.Writer, Kind: e.Kind, Body: body.Bytes()})
	}
	return f, nil
}

// readJournal reads another journal whole, but for reports of salvage, which are about that file. One without its
// mark, as all copies are, is taken as it is.
func readJournal(path string) (File, error) {
	j, err := journal.OpenReader(path)
	if err != nil {
		return File{}, err
	}
	events, err := j.Since(0)
	var short *journal.ShortError
	if errors.As(err, &short) && len(short.Lost) == 0 {
		err = nil
	}
	f := File{Path: path}
	for _, e := range events {
		if e.Kind != journal.KindSalvaged {
			f.Events = append(f.Events, e)
		}
	}
	return f, errors.Join(err, j.Close())
}
