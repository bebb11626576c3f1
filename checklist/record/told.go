package record

import (
	"encoding/json"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/plan"
)

// retell returns the events that count, at their instants on the clock as it went at the end of the night.
func retell(events []journal.Event) []journal.Event {
	return checklist.Counting(checklist.OnOneClock(events))
}

// bodyOf returns the body of an event of the kind; ok is false for another kind or a body that can't be read.
func bodyOf[Body any](e journal.Event, kind string) (body Body, ok bool) {
	if e.Kind != kind {
		return body, false
	}
	return body, json.Unmarshal(e.Body, &body) == nil
}

// adrift returns the exposures that were taken while nobody knew the derotator's angle: they belong to no
// run, and nobody can say at which camera angle they were taken.
func adrift(events []journal.Event, openTill time.Time) (strays []Stray) {
	stray := func(s checklist.Subs, from, to time.Time) {
		strays = append(strays, Stray{plan.Span{From: from, To: later(from, to)}, s.Filter, "nobody knew the derotator's angle"})
	}
	var before checklist.Night
	for _, e := range events {
		if e.Kind == checklist.KindClockJumped { // made up for
			continue
		}
		after := before.Next(e)
		_, open := before.OpenRun()
		_, opens := after.OpenRun()
		if before.Subs != nil && !open && (opens || !sameStretch(*before.Subs, after.Subs)) {
			stray(*before.Subs, before.Subs.Start, e.At)
		}
		before = after
	}
	if _, open := before.OpenRun(); before.Subs != nil && !open {
		stray(*before.Subs, before.Subs.Start, openTill)
	}
	return strays
}

// sameStretch tells whether the subs after an event are those before it.
func sameStretch(before checklist.Subs, after *checklist.Subs) bool {
	return after != nil && after.Start.Equal(before.Start)
}
