package journal

import (
	"fmt"
	"strings"
	"time"

	"duskhand/sky/words"
)

// KindSalvaged is the one kind of event that the journal writes itself, when it has put a new file in
// the place of a damaged one. Its body is Salvaged.
const KindSalvaged = "journal-salvaged"

// Gap is a stretch of events that are lost.
type Gap struct {
	From   int64      `json:"from_ordinal"`
	To     int64      `json:"to_ordinal"`           // included
	After  *time.Time `json:"after_utc,omitempty"`  // the event before them happened then; nil if there is none
	Before *time.Time `json:"before_utc,omitempty"` // the event after them, or the last proof of them; nil if unknown
}

// Count returns how many events are lost in the gap.
func (g Gap) Count() int { return int(g.To - g.From + 1) }

// Salvaged is the body of a KindSalvaged event.
type Salvaged struct {
	Reason   string `json:"reason"`    // what the check of the damaged file said
	SetAside string `json:"set_aside"` // where that file lies now, untouched
	Carried  int    `json:"carried"`   // events carried into the new file
	Lost     []Gap  `json:"lost,omitempty"`
}

// Report says what was found wrong with a journal when it was opened.
type Report struct {
	Salvaged // SetAside is "" if the file was sound and stayed
	// EndUnproved: the mark of the last event is missing or unreadable, so that events lost from the
	// very end, if any, cannot be counted.
	EndUnproved bool
}

// Count returns how many events are lost; more may be, if EndUnproved.
func (r Report) Count() (events int) {
	for _, gap := range r.Lost {
		events += gap.Count()
	}
	return events
}

// Words returns the report in sentences, with times in the given zone.
func (r Report) Words(zone *time.Location) string {
	var said []string
	if r.SetAside != "" {
		said = append(said, fmt.Sprintf("The journal was damaged (%s). It lies untouched in %s; %s carried into a new one.",
			r.Reason, r.SetAside, carriedWords(r.Carried)))
		said = append(said, r.lossWords(zone))
	}
	if r.EndUnproved && (r.SetAside == "" || r.Carried > 0 || len(r.Lost) > 0) {
		said = append(said, "Whether any came after the last one cannot be told: the mark that would prove it is missing or damaged.")
	}
	return strings.Join(said, " ")
}

func carriedWords(events int) string {
	switch events {
	case 0:
		return "no event could be"
	case 1:
		return "1 event was"
	}
	return fmt.Sprintf("%d events were", events)
}

func (r Report) lossWords(zone *time.Location) string {
	switch {
	case len(r.Lost) == 0 && r.Carried == 0:
		return "Whether it held any cannot be told."
	case len(r.Lost) == 0 && r.EndUnproved:
		return "None is missing among them."
	case len(r.Lost) == 0:
		return "No event is known to be lost."
	}
	var gaps []string
	for _, gap := range r.Lost {
		text := fmt.Sprint(gap.Count())
		if gap.After != nil {
			text += " after " + words.DateSecondWithZone(*gap.After, zone)
		}
		if gap.Before != nil {
			text += " before " + words.DateSecondWithZone(*gap.Before, zone)
		}
		gaps = append(gaps, text)
	}
	return "Events lost: " + strings.Join(gaps, "; ") + "."
}
