// Package follow is how a night is followed, on the screens and in lines: what was said since, and when what was derived
// from it is too old.
package follow

import (
	"time"

	"duskhand/checklist/journal"
)

// Journal is where events are read from.
type Journal interface {
	// Since returns the events after an ordinal, of whatever night.
	Since(ordinal int64) ([]journal.Event, error)
}

// Since returns what was said in a night after an ordinal, and the ordinal of the last event of whatever night, so that
// none is read again.
//
// Error: the journal's; what could be read is returned all the same.
func Since(j Journal, night string, after int64) (events []journal.Event, upTo int64, err error) {
	all, err := j.Since(after)
	upTo = after
	for _, e := range all {
		upTo = max(upTo, e.Ordinal)
		if e.Night == night {
			events = append(events, e)
		}
	}
	return events, upTo, err
}

// Due divides what a replayed night has to say into what has been said by now and what is yet to come.
func Due(script []journal.Event, now time.Time) (said, rest []journal.Event) {
	n := 0
	for n < len(script) && !script[n].At.After(now) {
		n++
	}
	return script[:n], script[n:]
}

// oldest is how old the facts may grow: they depend on the instant only through the plan of what is left when nothing is
// going on.
const oldest = time.Minute

// Stale tells that facts derived at an instant are too old now, or that the clock went back behind it.
func Stale(derived, now time.Time) bool { return now.Sub(derived).Abs() >= oldest }
