package plan

import (
	"time"

	"duskhand/plan/kit"
)

// order lays the subs of a schedule's runs anew, in the order in which they are worth most; wanted is the sequence as
// it was before the first. A sequence with an order keeps it.
//
// The runs were found for filters that take turns and end with their last sub. Where they are too tight for the order,
// whose dithers and changes come elsewhere, it is laid in runs with room for a sub more: a group cut short, and its
// rest at the end, would cost more than those minutes.
func (c *Course) order(s *Schedule, from Start, wanted Sequence) {
	if wanted.worth == nil || len(wanted.laid) > 0 || wanted.only > 0 || len(s.Runs) == 0 {
		return
	}
	ordered, whole := c.inOrder(s, from, wanted)
	if !whole && s.After.Done() {
		end := s.end().Add(time.Duration(len(s.Runs)) * longestSub(wanted.subs))
		roomier := c.planBy(end, s, from, wanted)
		if other, whole := c.inOrder(&roomier, from, wanted); whole && len(other.Rewinds) <= len(s.Rewinds) {
			ordered = other
		}
	}
	*s = ordered
}

// longestSub returns what the longest sub takes with all that can come about it.
func longestSub(subs kit.Subs) (longest time.Duration) {
	for _, f := range subs.Filters {
		longest = max(longest, f.Exposure)
	}
	return longest + subs.Overhead + subs.DitherSettle + subs.FilterChange + subs.Refocus
}

// inOrder returns a schedule with the subs of its runs in their best order; whole tells whether that has all that are
// wanted.
func (c *Course) inOrder(s *Schedule, from Start, wanted Sequence) (ordered Schedule, whole bool) {
	if len(s.Runs) == 0 {
		return *s, false
	}
	l := newLaying(wanted, c.rooms(s))
	if len(l.filters) < 2 {
		return *s, true
	}
	parts := l.order()
	for _, p := range parts {
		wanted.laid = append(wanted.laid, part{l.filters[p.filter], p.count})
	}
	ordered = Schedule{Windows: s.Windows, Dark: s.Dark, After: wanted}
	s.by.lay(&ordered, from, s.legs)
	return ordered, total(parts) == sum(l.left)
}

// rewindAfter returns the rewind that follows a run, nil for none.
func (s *Schedule) rewindAfter(i int) *Rewind {
	for k := range s.Rewinds {
		if i+1 < len(s.Runs) && s.Rewinds[k].To.Equal(s.Runs[i+1].anchor.At) && s.Runs[i].anchor != s.Runs[i+1].anchor {
			return &s.Rewinds[k]
		}
	}
	return nil
}

// RewindBefore returns the rewind that comes before the i-th run; ok is false if none does.
func (s Schedule) RewindBefore(i int) (rewind Rewind, ok bool) {
	for _, r := range s.Rewinds {
		if !r.To.After(s.Runs[i].From) && (i == 0 || !r.From.Before(s.Runs[i-1].To)) {
			return r, true
		}
	}
	return Rewind{}, false
}

// rooms returns the spans in which the subs of the runs have room: so that the stage still comes in time to where the
// next run begins, from wherever it then stands.
func (c *Course) rooms(s *Schedule) (spans []Span) {
	for i := range s.Runs {
		run := &s.Runs[i]
		if r := s.rewindAfter(i); r != nil {
			free := r.To.Add(r.Turns - r.Length())
			for range 3 { // the later it ends, the longer the way: the two agree to the second
				way := c.RewindTime(c.held(c.Angle(run.anchor, run.room.To)), r.ToAngle)
				run.room.To = earlier(run.room.To, free.Add(-way))
			}
		}
		spans = append(spans, run.room)
	}
	return spans
}

// Part is a stretch of a schedule's subs through one filter.
type Part struct {
	Span   // from the first shutter's opening to when the last sub is over; rewinds and pauses included
	Filter string
	Count  int
	Worth  float64 // of a minute, mean over its subs; 0 where nobody told what they are worth
}

// Parts returns the subs of a schedule by filter, in their order.
func (s Schedule) Parts() (parts []Part) {
	for _, run := range s.Runs {
		for _, sub := range run.Subs {
			n := len(parts)
			if n == 0 || parts[n-1].Filter != sub.Filter.Name {
				parts = append(parts, Part{Span: sub.Exposure, Filter: sub.Filter.Name})
				n++
			}
			p := &parts[n-1]
			p.Worth = (p.Worth*float64(p.Count) + s.worthOf(sub)) / float64(p.Count+1)
			p.Count++
			p.To = sub.Over
		}
	}
	return parts
}

func (s Schedule) worthOf(sub Sub) float64 {
	if s.After.worth == nil {
		return 0
	}
	for f, filter := range s.After.subs.Filters {
		if filter.Name == sub.Filter.Name {
			return s.After.worth.Of(f, sub.Exposure) / sub.Exposure.Length().Seconds()
		}
	}
	return 0
}

// Order returns the order of a schedule's subs, for a sequence to follow; none where the filters take turns.
func (s Schedule) Order() (order []FilterCount) {
	if s.After.worth == nil {
		return nil
	}
	for _, p := range s.Parts() {
		order = append(order, FilterCount{p.Filter, p.Count})
	}
	return order
}
