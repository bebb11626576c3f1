package record

import (
	"encoding/json"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/plan"
)

// told is an event that counts, at its instant on the clock as it went at the end of the night.
type told struct {
	journal.Event
	at time.Time
}

// retell returns the events that count, with the jumps of the clock after each made up for.
func retell(events []journal.Event) []told {
	counting := checklist.Counting(events)
	all := make([]told, len(counting))
	var shift time.Duration
	for i := len(counting) - 1; i >= 0; i-- {
		e := counting[i]
		all[i] = told{e, e.At.Add(shift)}
		if body, ok := bodyOf[checklist.ClockJumpedBody](all[i], checklist.KindClockJumped); ok {
			all[i].at = time.Unix(0, body.ToNs).UTC().Add(shift)
			shift += time.Duration(body.ToNs - body.FromNs)
		}
	}
	return all
}

// bodyOf returns the body of an event of the kind; ok is false for another kind or a body that can't be read.
func bodyOf[Body any](e told, kind string) (body Body, ok bool) {
	if e.Kind != kind {
		return body, false
	}
	return body, json.Unmarshal(e.Body, &body) == nil
}

// adrift returns the exposures that were taken while nobody knew the derotator's angle: they belong to no
// run, and nobody can say at which camera angle they were taken.
func adrift(events []told, openTill time.Time) (strays []Stray) {
	stray := func(s checklist.Subs, from, to time.Time) {
		strays = append(strays, Stray{plan.Span{From: from, To: later(from, to)}, s.Filter, "nobody knew the derotator's angle"})
	}
	var before checklist.Night
	for _, e := range events {
		after := before.Next(e.Event)
		_, open := before.OpenRun()
		_, opens := after.OpenRun()
		if before.Subs != nil && !open && (opens || !sameStretch(e, *before.Subs, after.Subs)) {
			stray(*before.Subs, before.Subs.Start.Add(e.at.Sub(e.At)), e.at)
		}
		before = after
	}
	if _, open := before.OpenRun(); before.Subs != nil && !open {
		stray(*before.Subs, before.Subs.Start, openTill)
	}
	return strays
}

// sameStretch tells whether the subs after an event are those before it.
func sameStretch(e told, before checklist.Subs, after *checklist.Subs) bool {
	return after != nil && (after.Start.Equal(before.Start) || e.Kind == checklist.KindClockJumped)
}
