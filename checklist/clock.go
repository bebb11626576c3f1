package checklist

import (
	"time"
)

// clockJumped moves all instants so far on to the clock as it goes now, so that what began before the
// jump has lasted as long as it really has.
func (n *Night) clockJumped(b ClockJumpedBody, _ time.Time) {
	shift := time.Duration(b.ToNs - b.FromNs)
	move := func(t *time.Time) {
		if !t.IsZero() {
			*t = t.Add(shift)
		}
	}
	// What Next shares with the night before is replaced, not changed.
	n.Opened, n.Anchor, n.Subs, n.Axis = moved(n.Opened), moved(n.Anchor), moved(n.Subs), moved(n.Axis)
	if n.Opened != nil {
		move(&n.Opened.At)
	}
	if n.Anchor != nil {
		move(&n.Anchor.At)
	}
	if n.Subs != nil {
		move(&n.Subs.Start)
	}
	if n.Axis != nil {
		move(&n.Axis.At)
	}
	move(&n.DerotatorSince)
	move(&n.Latest)
	n.Readings = append([]Reading(nil), n.Readings...)
	for i := range n.Readings {
		move(&n.Readings[i].At)
	}
	n.Notes = append([]Note(nil), n.Notes...)
	for i := range n.Notes {
		move(&n.Notes[i].At)
	}
	for i := range n.Runs {
		run := &n.Runs[i]
		move(&run.Start)
		move(&run.End)
		run.Subs = append([]Subs(nil), run.Subs...)
		for k := range run.Subs {
			move(&run.Subs[k].Start)
			move(&run.Subs[k].End)
		}
	}
}

// moved returns a copy of what p points at, to be changed.
func moved[T any](p *T) *T {
	if p == nil {
		return nil
	}
	c := *p
	return &c
}
