package checklist

import (
	"slices"
	"time"
)

// clockJumped moves all instants so far on to the clock as it goes now, so that what began before the
// jump has lasted as long as it really has. What Next shares with the night before is copied first.
func (n *Night) clockJumped(b ClockJumpedBody, _ time.Time) {
	shift := time.Duration(b.ToNs - b.FromNs)
	n.Opened = moved(n.Opened, shift, func(o *Opened) *time.Time { return &o.At })
	n.Anchor = moved(n.Anchor, shift, func(a *Anchor) *time.Time { return &a.At })
	n.Axis = moved(n.Axis, shift, func(a *Axis) *time.Time { return &a.At })
	n.Subs = moved(n.Subs, shift, func(s *Subs) *time.Time { return &s.Start })
	n.Divided = moved(n.Divided, shift, func(d *Division) *time.Time { return &d.At })
	n.Arrived = slices.Clone(n.Arrived)
	for i := range n.Arrived {
		move(&n.Arrived[i].At, shift)
		n.Arrived[i].SeenNs += shift.Nanoseconds()
		if ours := n.Arrived[i].OursNs; ours != nil {
			moved := *ours + shift.Nanoseconds()
			n.Arrived[i].OursNs = &moved
		}
	}
	n.shiftGuiding(shift)
	n.shiftCables(shift)
	instant := func(t *time.Time) *time.Time { return t }
	n.Recentred, n.Cloud = moved(n.Recentred, shift, instant), moved(n.Cloud, shift, instant)
	move(&n.DerotatorSince, shift)
	move(&n.Latest, shift)
	n.Readings, n.Notes, n.Sights = slices.Clone(n.Readings), slices.Clone(n.Notes), slices.Clone(n.Sights)
	n.Focused = moved(n.Focused, shift, func(f *Focused) *time.Time { return &f.At })
	n.Temperatures = slices.Clone(n.Temperatures)
	for i := range n.Temperatures {
		move(&n.Temperatures[i].At, shift)
	}
	n.Humidities = slices.Clone(n.Humidities)
	for i := range n.Humidities {
		move(&n.Humidities[i].At, shift)
	}
	for i := range n.Sights {
		move(&n.Sights[i].At, shift)
	}
	for i := range n.Readings {
		move(&n.Readings[i].At, shift)
	}
	for i := range n.Notes {
		move(&n.Notes[i].At, shift)
	}
	n.marks = slices.Clone(n.marks)
	for i := range n.marks {
		move(&n.marks[i].at, shift)
	}
	for i := range n.Runs {
		n.Runs[i].move(shift)
	}
}

func (r *Run) move(shift time.Duration) {
	move(&r.Start, shift)
	move(&r.End, shift)
	r.Read = moved(r.Read, shift, func(read *Reading) *time.Time { return &read.At })
	r.Subs = slices.Clone(r.Subs)
	for i := range r.Subs {
		move(&r.Subs[i].Start, shift)
		move(&r.Subs[i].End, shift)
	}
}

// move shifts an instant, unless it is the zero that stands for none.
func move(t *time.Time, shift time.Duration) {
	if !t.IsZero() {
		*t = t.Add(shift)
	}
}

// moved returns a copy of what p points at, with its instant shifted.
func moved[T any](p *T, shift time.Duration, instant func(*T) *time.Time) *T {
	if p == nil {
		return nil
	}
	c := *p
	move(instant(&c), shift)
	return &c
}
