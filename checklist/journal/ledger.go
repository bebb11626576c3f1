package journal

import (
	"encoding/json"
	"fmt"
	"time"
)

// ledger counts events in the order of their ordinals, and so finds what is missing among them.
type ledger struct {
	last     int64      // the ordinal before the first one to come, then that of the last one taken
	after    *time.Time // when that happened; nil if none was taken
	events   int
	missing  []Gap
	admitted []Gap // reported as lost by an earlier salvage
}

func (l *ledger) take(e Event) {
	if e.Ordinal > l.last+1 {
		l.missing = append(l.missing, Gap{From: l.last + 1, To: e.Ordinal - 1, After: l.after, Before: &e.At})
	}
	l.last, l.after = e.Ordinal, &e.At
	l.events++
	l.admitted = append(l.admitted, admittedBy(e)...)
}

// lost returns what is missing among the events taken, as the ordinals and the mark tell, except what an earlier
// salvage has reported already.
func (l *ledger) lost(m mark) (lost []Gap) {
	missing := l.missing
	if m.last > l.last {
		missing = append(missing[:len(missing):len(missing)], Gap{From: l.last + 1, To: m.last, After: l.after, Before: &m.at})
	}
	for _, gap := range missing {
		lost = append(lost, without(gap, l.admitted)...)
	}
	return lost
}

// admittedBy returns the gaps that e reports, if it is the report of a salvage.
func admittedBy(e Event) []Gap {
	var body Salvaged
	if e.Kind != KindSalvaged || json.Unmarshal(e.Body, &body) != nil {
		return nil
	}
	return body.Lost
}

// without returns the parts of gap that no admitted gap covers, with the times of the whole.
func without(gap Gap, admitted []Gap) []Gap {
	left := []Gap{gap}
	for _, a := range admitted {
		var parts []Gap
		for _, part := range left {
			before, after := part, part
			before.To, after.From = min(part.To, a.From-1), max(part.From, a.To+1)
			if a.To < part.From || part.To < a.From {
				parts = append(parts, part)
				continue
			}
			for _, rest := range []Gap{before, after} {
				if rest.From <= rest.To {
					parts = append(parts, rest)
				}
			}
		}
		left = parts
	}
	return left
}

// remedy is what puts a damaged journal right: whoever opens it for writing inspects and salvages it.
const remedy = `the screens, or any "duskhand tell", salvage what can be proved and say what is lost`

// ShortError says that a journal that was read holds less than was confirmed, or can't prove that it does not.
type ShortError struct {
	Lost []Gap // missing; empty if only the proof of the end is
}

func (e *ShortError) Error() string {
	if len(e.Lost) == 0 {
		return "whether the journal's last events are all there can't be told, since the mark that would prove it is " +
			"missing or damaged; " + remedy
	}
	count := 0
	for _, gap := range e.Lost {
		count += gap.Count()
	}
	if count == 1 {
		return fmt.Sprintf("the journal is damaged: event %d was confirmed and is missing; %s", e.Lost[0].From, remedy)
	}
	return fmt.Sprintf("the journal is damaged: %d events that were confirmed are missing, from %d to %d; %s",
		count, e.Lost[0].From, e.Lost[len(e.Lost)-1].To, remedy)
}
