package plan

import (
	"time"

	"duskhand/sky"
)

// Span is a stretch of time, From included, To excluded.
type Span struct{ From, To time.Time }

// Length returns how long the span lasts.
func (s Span) Length() time.Duration { return s.To.Sub(s.From) }

// Contains tells whether t lies in the span.
func (s Span) Contains(t time.Time) bool { return !t.Before(s.From) && t.Before(s.To) }

// Overlap returns the length of what two spans share, 0 if nothing.
func (s Span) Overlap(o Span) time.Duration {
	from, to := s.From, s.To
	if o.From.After(from) {
		from = o.From
	}
	if o.To.Before(to) {
		to = o.To
	}
	return max(0, to.Sub(from))
}

// Common returns what two spans share; of no length or less if that is nothing.
func (s Span) Common(o Span) Span { return Span{later(s.From, o.From), earlier(s.To, o.To)} }

// Without returns the parts of a span outside others, which are in order of their beginnings.
func (s Span) Without(others []Span) (parts []Span) {
	at := s.From
	for _, o := range others {
		if end := earlier(o.From, s.To); at.Before(end) {
			parts = append(parts, Span{at, end})
		}
		at = later(at, o.To)
	}
	if at.Before(s.To) {
		parts = append(parts, Span{at, s.To})
	}
	return parts
}

// condition is something that must hold for the target to be usable: room is how far it is from being
// violated, negative when it is. The angle has a meaning of its own for each kind.
type condition struct {
	kind Bound
	room func(time.Time) sky.Angle
}

// change is an instant at which one condition begins or ceases to hold.
type change struct {
	at    time.Time
	holds bool
	kind  Bound
}

func earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}
