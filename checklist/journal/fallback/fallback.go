// Package fallback opens the journal of a night for whoever writes or follows it, and keeps the night in memory while
// the disk refuses.
package fallback

import (
	"encoding/json"
	"errors"
	"io/fs"
	"slices"
	"sync"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/checklist/unwritten"
)

// Fallback keeps a night in memory while its journal can't be opened for writing, because the disk is full or
// read-only, and brings it to the disk as soon as it can.
type Fallback struct {
	mu     sync.Mutex
	memory *journal.Journal
	night  string
	onDisk []int64 // ordinals in the journal of the first events in memory, in order
	open   func() (Store, error)
	half   Store           // a journal that could be opened and has yet to take all that was said; nil if there is none
	whole  Store           // the journal once it has; nil before that
	left   []journal.Event // once closed: what no journal has taken
}

// InMemory starts with what can be read of the night. What can't be is the error, beside a store in order.
func InMemory(c Config, night string) (*Fallback, []journal.Event, error) {
	memory, err := journal.InMemory(c.Writer, c.Now)
	if err != nil {
		return nil, nil, err
	}
	r := &Fallback{memory: memory, night: night}
	r.open = func() (Store, error) { return journal.Open(c.Path, c.Writer, c.Now) }
	before, unread := readable(c.Path, night)
	var events []journal.Event
	for _, e := range before {
		kept, err := memory.Append(night, e.Kind, e.At, e.Body)
		if err != nil {
			return nil, nil, err
		}
		r.onDisk, events = append(r.onDisk, e.Ordinal), append(events, kept)
	}
	taken, err := r.takeIn(c.Path)
	return r, append(events, taken...), errors.Join(unread, err)
}

// takeIn takes up what an earlier session could not write either, and returns what of it is of this night. It counts
// as said in this one; the files stay until a journal has taken them in.
func (r *Fallback) takeIn(journalPath string) (events []journal.Event, err error) {
	files, err := unwritten.Waiting(journalPath)
	for _, f := range files {
		_, failed := unwritten.TakeIn(r.memory, f, func(onDisk int64) int64 { return int64(slices.Index(r.onDisk, onDisk) + 1) })
		err = errors.Join(err, failed)
	}
	for _, e := range r.said() {
		if e.Night == r.night {
			events = append(events, e)
		}
	}
	return events, err
}

// readable returns what a journal that can't be written still tells of a night, and why it does not tell more.
func readable(path, night string) ([]journal.Event, error) {
	j, err := journal.OpenReader(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	events, err := j.Events(night)
	return events, errors.Join(err, j.Close())
}

func (r *Fallback) store() Store {
	if r.whole != nil {
		return r.whole
	}
	return r.memory
}

// The methods of a Store.

// Append is the journal's, or the memory's until there is one.
func (r *Fallback) Append(night, kind string, at time.Time, body any) (journal.Event, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.store().Append(night, kind, at, body)
}

// Events is the journal's, or the memory's until there is one.
func (r *Fallback) Events(night string) ([]journal.Event, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.store().Events(night)
}

// Since is the journal's, or the memory's until there is one.
func (r *Fallback) Since(ordinal int64) ([]journal.Event, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.store().Since(ordinal)
}

// Backup is the journal's, or the memory's until there is one.
func (r *Fallback) Backup() (string, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.store().Backup()
}

// Check is the journal's, once there is one.
func (r *Fallback) Check() error {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.whole == nil {
		return nil
	}
	return r.whole.Check()
}

// Renewed is the journal's, once there is one.
func (r *Fallback) Renewed() string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.store().Renewed()
}

// Pending returns how many events are in memory only.
func (r *Fallback) Pending() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	switch {
	case r.whole != nil:
		return r.whole.Pending()
	case r.half != nil:
		return r.half.Pending() + len(r.said())
	}
	return len(r.said())
}

// said returns what has been said since it was taken up and no journal has taken yet.
func (r *Fallback) said() []journal.Event {
	events, err := r.memory.Since(int64(len(r.onDisk)))
	if err != nil { // a journal in memory does not fail to read
		return nil
	}
	return events
}

// Retry brings the night to the disk if that can be done by now. The ordinals of its events are others
// there: nothing may be said meanwhile, and whoever holds the old ones must read the night again.
func (r *Fallback) Retry() error {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.whole != nil {
		return r.whole.Retry()
	}
	if r.half == nil {
		opened, err := r.open()
		if err != nil {
			return err
		}
		r.half = opened
	}
	if err := r.handOver(); err != nil {
		return err
	}
	if err := r.half.Retry(); err != nil {
		return err
	}
	r.whole, r.half = r.half, nil
	return nil
}

// handOver gives the opened journal what was said. An event that has to wait there has been taken: the journal
// knows by itself whether it has reached the disk, and it must not be given twice.
func (r *Fallback) handOver() error {
	for _, e := range r.said() {
		body, err := withOrdinals(e, r.onDisk)
		if err != nil {
			return err
		}
		written, err := r.half.Append(e.Night, e.Kind, e.At, body)
		var waiting *journal.WaitingError
		if err != nil && !errors.As(err, &waiting) {
			return errors.Join(err, r.abandon())
		}
		r.onDisk = append(r.onDisk, written.Ordinal)
	}
	return nil
}

// abandon lets an opened journal go that has not taken all. What it has not brought to the disk counts as said
// again.
func (r *Fallback) abandon() error {
	waited := r.half.Pending()
	err := r.half.Close()
	r.half = nil
	var waiting *journal.WaitingError
	if errors.As(err, &waiting) {
		r.onDisk = r.onDisk[:len(r.onDisk)-waited]
	}
	return err
}

// withOrdinals returns an event's body, with the ordinal of what it undoes as it is on the disk.
func withOrdinals(e journal.Event, ordinals []int64) (json.RawMessage, error) {
	return checklist.Renumbered(e.Kind, e.Body, func(old int64) int64 {
		if old >= 1 && old <= int64(len(ordinals)) {
			return ordinals[old-1]
		}
		return old
	})
}

// Unwritten returns what has been said and is in no journal. Its ordinals are negative, since those in memory mean
// others in the journal.
func (r *Fallback) Unwritten() []journal.Event {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.whole != nil {
		return r.whole.Unwritten()
	}
	return r.left
}

// Close tries once more. What can't be written even then is what Unwritten returns.
func (r *Fallback) Close() error {
	err := r.Retry()
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.whole != nil {
		return errors.Join(r.whole.Close(), r.memory.Close())
	}
	if r.half != nil {
		err = errors.Join(err, r.abandon())
	}
	ordinals := slices.Clone(r.onDisk)
	for i, e := range r.said() {
		ordinals = append(ordinals, -int64(i+1))
		body, wrong := withOrdinals(e, ordinals)
		err = errors.Join(err, wrong)
		e.Ordinal, e.Body = ordinals[len(ordinals)-1], body
		r.left = append(r.left, e)
	}
	if len(r.left) == 0 {
		err = nil // nothing was kept from the disk
	}
	return errors.Join(err, r.memory.Close())
}
