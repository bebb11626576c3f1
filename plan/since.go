package plan

import (
	"slices"
	"time"
)

// Begins returns when the first thing of a schedule is to be done: the rewind before the first run, or that run. A
// schedule without runs begins when its dark ends.
func (s Schedule) Begins() time.Time {
	switch {
	case len(s.Runs) > 0 && len(s.Rewinds) > 0:
		return earlier(s.Runs[0].From, s.Rewinds[0].From)
	case len(s.Runs) > 0:
		return s.Runs[0].From
	case len(s.Dark) > 0:
		return s.Dark[len(s.Dark)-1].To
	}
	return time.Time{}
}

// Since returns what is left of a schedule at an instant not after it Begins, at which nothing of it has been done: by
// the principle of optimality the best from there on too.
func (s Schedule) Since(at time.Time) Schedule {
	var dark []Span
	for _, d := range s.Dark {
		if d.From = later(d.From, at); d.From.Before(d.To) {
			dark = append(dark, d)
		}
	}
	s.Dark, s.Waits, s.Gaps = dark, idleSince(s.Waits, at), idleSince(s.Gaps, at)
	return s
}

func idleSince(all []Idle, at time.Time) (left []Idle) {
	for _, i := range all {
		if i.From = later(i.From, at); i.From.Before(i.To) {
			left = append(left, i)
		}
	}
	return left
}

// Same tells whether two sequences of one kit stand at the same.
func (s Sequence) Same(other Sequence) bool {
	return s.filter == other.filter && s.inARow == other.inARow && s.sinceDither == other.sinceDither && s.only == other.only &&
		s.worth == other.worth && slices.Equal(s.laid, other.laid) && slices.Equal(s.taken, other.taken)
}
