package unwritten

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
)

// Taker is a journal that takes events in.
type Taker interface {
	Since(ordinal int64) ([]journal.Event, error)
	Append(night, kind string, at time.Time, body any) (journal.Event, error)
}

// TakeIn writes into a journal what it does not have of a file, and returns how many events that were. An event is
// known by its night, kind, instant and body; so taking in the same again adds nothing, and what failed half-way is
// gone on with. Named tells under which ordinal the journal has what an undo names by a number of the journal's; nil
// if the journal is the same.
//
// Error: the journal's; the file is untouched whatever happens.
func TakeIn(j Taker, f File, named func(int64) int64) (added int, err error) {
	there, err := j.Since(0)
	if err != nil {
		return 0, err
	}
	known := map[string][]int64{}
	for _, e := range there {
		known[likeness(e)] = append(known[likeness(e)], e.Ordinal)
	}
	number := map[int64]int64{}
	for _, e := range f.Events {
		body, err := checklist.Renumbered(e.Kind, e.Body, func(old int64) int64 {
			if _, ok := number[old]; ok || named == nil {
				return throughMap(number)(old)
			}
			if n := named(old); n != 0 {
				return n
			}
			return old
		})
		if err != nil {
			return added, fmt.Errorf("taking in %q: %w", e.Kind, err)
		}
		like := likeness(journal.Event{Night: e.Night, Kind: e.Kind, At: e.At, Body: body})
		if same := known[like]; len(same) > 0 {
			number[e.Ordinal], known[like] = same[0], same[1:]
			continue
		}
		written, err := j.Append(e.Night, e.Kind, e.At, body)
		if err != nil {
			return added, err
		}
		number[e.Ordinal] = written.Ordinal
		added++
	}
	return added, nil
}

func likeness(e journal.Event) string {
	text, _ := json.Marshal([]string{e.Night, e.Kind, e.At.UTC().Format(time.RFC3339Nano), string(e.Body)}) // strings always can
	return string(text)
}

// TakeInAll takes in what waits for the journal at a path and removes each file once all of it is on the disk. Said
// is what the person should know, in sentences; "" if nothing waits.
func TakeInAll(j interface {
	Taker
	Pending() int
}, journalPath string) (said string) {
	files, err := Waiting(journalPath)
	if err != nil {
		said = join(said, fmt.Sprintf("A file of events that waited for the journal can't be taken in: %v.", err))
	}
	for _, f := range files {
		added, err := TakeIn(j, f, nil)
		if err == nil && j.Pending() > 0 {
			err = errors.New("the journal has not written all of them yet")
		}
		if err == nil {
			err = f.remove()
		}
		if err != nil {
			said = join(said, fmt.Sprintf("What waits in %s is not all in the journal yet and stays there: %v.", f.Path, err))
			continue
		}
		said = join(said, fmt.Sprintf("%s could not be written when the program was left; they are in the journal now.", Counted(added)))
	}
	return said
}

func join(said, more string) string {
	if said == "" {
		return more
	}
	return said + " " + more
}

// Counted returns a number of events in words: "3 events".
func Counted(n int) string {
	if n == 1 {
		return "1 event"
	}
	return fmt.Sprintf("%d events", n)
}
