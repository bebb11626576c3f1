package checklist

import (
	"encoding/json"
	"slices"
	"time"

	"duskhand/checklist/journal"
)

// What was said on a clock that was wrong is put right by shifting the events and folding them again.

// Count is a machine's steady count of time beside its clock. Boot names the start of the machine that it counts
// from, "" where nobody can tell one from another; Began is what the clock, as it goes, would have shown then.
type Count struct {
	Boot  string
	Began time.Time
}

// jumpWorthNoting is how far a clock may part from its count before that is a jump; clockSlack is how much later
// than a clock shows an event may lie and still have been said on it. Choices of ours: a countdown that is wrong
// by so little harms nobody.
const (
	jumpWorthNoting = 2 * time.Second
	clockSlack      = 10 * time.Second
)

// Opening returns what is to be written down before anything else by a program that begins to write the night: that
// it is opened, if it is new or the machine was started anew since; that the clock has jumped, if it parted from
// the count on which the night was written; nil if nothing is.
func (n Night) Opening(kit, target string, c Count, now time.Time) Action {
	open := OpenNight{Kit: kit, Target: target, Count: c}
	switch {
	case n.Key == "":
		return open
	case c.Boot == "":
		return nil
	case c.Boot != n.Count.Boot:
		return open
	}
	if jump := c.Began.Sub(n.Count.Began); jump.Abs() > jumpWorthNoting {
		return NoticeJump{From: now.Add(-jump), To: now}
	}
	return nil
}

// Ahead tells that what was said in the night lies later than the clock shows, and by how much: either is wrong, and
// nobody knows how long anything has lasted. It holds until the clock is put right, or until the machine has been
// started anew and the derotator's angle was said since, which then counts on the clock as it goes.
func (n Night) Ahead(now time.Time) (by time.Duration, ahead bool) {
	by = max(n.doubt, n.newest.Sub(now))
	return by, by > clockSlack
}

// OnOneClock returns events of one night, in the order of their ordinals, with their instants on the clock as it
// goes after the last of them.
//
// A jump of the clock shifts what was said on the clock that jumped, so that what began before it has lasted as
// long as it really has: back to where the machine was started anew, and no further than to an event that lies later
// than that clock had come. What came before that was said on another clock, and stays.
func OnOneClock(events []journal.Event) []journal.Event {
	moved, _ := onOneClock(events, cancelledBy(events))
	return moved
}

// onOneClock is OnOneClock where it is known which events are undone; doubt is by how much a machine was started
// with its clock behind what had been said before, as long as nothing has settled that.
func onOneClock(events []journal.Event, undone map[int64]bool) (moved []journal.Event, doubt time.Duration) {
	moved = slices.Clone(events)
	boot, starts := "", []int{0}
	for i, e := range events {
		switch e.Kind {
		case KindNightOpened:
			if b, ok := decode[NightOpenedBody](e); ok && b.Boot != "" && b.Boot != boot {
				boot, starts = b.Boot, append(starts, i)
			}
		case KindClockJumped:
			if b, ok := decode[ClockJumpedBody](e); ok {
				moved[i].At = time.Unix(0, b.ToNs).UTC()
				shiftBack(moved[starts[len(starts)-1]:i], b)
			}
		}
	}
	for _, start := range starts[1:] {
		gap := newestOf(moved[:start]).Sub(moved[start].At)
		if start == 0 || gap <= clockSlack {
			continue
		}
		if !angleSaid(events[start:], undone) {
			doubt = max(doubt, gap)
			continue
		}
		for k := range moved[:start] {
			moved[k] = shifted(moved[k], -gap)
		}
	}
	return moved, doubt
}

// shiftBack shifts the latest events, as far back as they lie on the clock that jumped.
func shiftBack(events []journal.Event, b ClockJumpedBody) {
	from := time.Unix(0, b.FromNs).Add(clockSlack)
	for k := len(events) - 1; k >= 0 && !events[k].At.After(from); k-- {
		events[k] = shifted(events[k], time.Duration(b.ToNs-b.FromNs))
	}
}

// angleSaid tells whether somebody has said, after a machine's start, where the derotator stands: the countdown goes
// by that alone.
func angleSaid(events []journal.Event, undone map[int64]bool) bool {
	return slices.ContainsFunc(events, func(e journal.Event) bool {
		return (e.Kind == KindRead || e.Kind == KindRewound || e.Kind == KindDerotatorOn) && !undone[e.Ordinal]
	})
}

func newestOf(events []journal.Event) (newest time.Time) {
	for _, e := range events {
		if e.At.After(newest) {
			newest = e.At
		}
	}
	return newest
}

// shifted returns an event as if the clock had been put forward before it: with the instants of our clock that its
// body has.
func shifted(e journal.Event, by time.Duration) journal.Event {
	e.At = e.At.Add(by)
	switch e.Kind {
	case KindNightOpened:
		e.Body = reworded(e, func(b *NightOpenedBody) {
			if b.Boot != "" {
				b.BeganNs += by.Nanoseconds()
			}
		})
	case KindSubArrived:
		e.Body = reworded(e, func(b *SubArrivedBody) {
			b.SeenNs += by.Nanoseconds()
			if b.OursNs != nil {
				ours := *b.OursNs + by.Nanoseconds()
				b.OursNs = &ours
			}
		})
	}
	return e
}

// reworded returns the event's body after a change; as it was if it can't be read.
func reworded[Body any](e journal.Event, change func(*Body)) json.RawMessage {
	body, ok := decode[Body](e)
	if !ok {
		return e.Body
	}
	change(&body)
	text, err := json.Marshal(body)
	if err != nil {
		return e.Body
	}
	return text
}
