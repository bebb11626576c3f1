package ui

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
)

// refuge keeps a night in memory while its journal can't be opened for writing, because the disk is full or
// read-only, and brings it to the disk as soon as it can.
type refuge struct {
	mu      sync.Mutex
	memory  *journal.Journal
	night   string
	onDisk  []int64 // ordinals on the disk of the events that were read from there, in order
	open    func() (*journal.Journal, error)
	journal *journal.Journal // nil until it could be opened
}

// newRefuge starts with what can be read of the night.
func newRefuge(c Config, night string) (*refuge, []journal.Event, error) {
	memory, err := journal.InMemory(writerName, c.Clock.Now)
	if err != nil {
		return nil, nil, err
	}
	r := &refuge{memory: memory, night: night}
	r.open = func() (*journal.Journal, error) { return journal.Open(c.JournalPath, writerName, c.Clock.Now) }
	var events []journal.Event
	for _, e := range readable(c.JournalPath, night) {
		kept, err := memory.Append(night, e.Kind, e.At, e.Body)
		if err != nil {
			return nil, nil, err
		}
		r.onDisk, events = append(r.onDisk, e.Ordinal), append(events, kept)
	}
	return r, events, nil
}

// readable returns what a journal that can't be written still tells of a night.
func readable(path, night string) []journal.Event {
	j, err := journal.OpenReader(path)
	if err != nil {
		return nil
	}
	events, err := j.Events(night)
	if err = errors.Join(err, j.Close()); err != nil {
		return nil
	}
	return events
}

func (r *refuge) store() *journal.Journal {
	if r.journal != nil {
		return r.journal
	}
	return r.memory
}

// The methods of an eventStore.

func (r *refuge) Append(night, kind string, at time.Time, body any) (journal.Event, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.store().Append(night, kind, at, body)
}

func (r *refuge) Events(night string) ([]journal.Event, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.store().Events(night)
}

func (r *refuge) Since(ordinal int64) ([]journal.Event, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.store().Since(ordinal)
}

func (r *refuge) Backup() (string, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.store().Backup()
}

// Pending returns how many events are in memory only.
func (r *refuge) Pending() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.journal != nil {
		return r.journal.Pending()
	}
	return len(r.said())
}

// said returns what has been said since the refuge was taken.
func (r *refuge) said() []journal.Event {
	events, err := r.memory.Since(int64(len(r.onDisk)))
	if err != nil { // a journal in memory does not fail to read
		return nil
	}
	return events
}

// Retry brings the night to the disk if it can be opened by now. The ordinals of its events are others
// there: whoever holds the old ones must read the night again.
func (r *refuge) Retry() error {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.journal != nil {
		return r.journal.Retry()
	}
	j, err := r.open()
	if err != nil {
		return err
	}
	ordinals := append([]int64(nil), r.onDisk...)
	for _, e := range r.said() {
		body, err := withOrdinals(e, ordinals)
		if err != nil {
			return errors.Join(err, j.Close())
		}
		written, err := j.Append(e.Night, e.Kind, e.At, body)
		if err != nil {
			return errors.Join(err, j.Close())
		}
		ordinals = append(ordinals, written.Ordinal)
	}
	r.journal = j
	return nil
}

// withOrdinals returns an event's body, with the ordinal of what it undoes as it is on the disk.
func withOrdinals(e journal.Event, ordinals []int64) (json.RawMessage, error) {
	if e.Kind != checklist.KindUndone {
		return e.Body, nil
	}
	var body checklist.UndoneBody
	if err := json.Unmarshal(e.Body, &body); err != nil {
		return nil, err
	}
	if i := body.Ordinal - 1; i >= 0 && i < int64(len(ordinals)) {
		body.Ordinal = ordinals[i]
	}
	return json.Marshal(body)
}

// Close tries once more. What can't be written even then goes to a file in the folder for temporary files,
// which the error names.
func (r *refuge) Close() error {
	err := r.Retry()
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.journal != nil {
		return errors.Join(r.journal.Close(), r.memory.Close())
	}
	said := r.said()
	if len(said) == 0 {
		return r.memory.Close()
	}
	path := filepath.Join(os.TempDir(), "duskhand-"+r.night+"-unwritten.json")
	text, marshalErr := json.MarshalIndent(said, "", "  ")
	writeErr := errors.Join(marshalErr, os.WriteFile(path, text, 0o600))
	if writeErr != nil {
		return fmt.Errorf("%d events of the night could not be written and are lost: %w", len(said), errors.Join(err, writeErr))
	}
	return fmt.Errorf("%d events of the night could not be written to the journal; they are in %s: %w", len(said), path, err)
}
