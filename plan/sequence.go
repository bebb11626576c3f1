package plan

import (
	"slices"
	"time"

	"duskhand/plan/kit"
)

// Sequence is how far the subs of one target have come: how many of each filter are taken, and which is
// next. It follows the order that was laid for it; without one, or after it, it goes round the filters, some subs of
// each in a row. Either way it passes over those that are complete. A Sequence is a value: Next returns another.
type Sequence struct {
	subs        kit.Subs
	taken       []int // by filter, in the kit's order
	filter      int   // whose turn it is
	inARow      int   // subs of it since its turn came
	sinceDither int   // subs since the last dither
	only        int   // 1 + the filter that Only named; 0: the filters take turns

	worth *Worth // by which Schedule lays the order; nil for the kit's own turns
	laid  []part // the order that holds, never changed in place
}

// part is so many subs through one filter, by its number.
type part struct{ filter, count int }

// NewSequence returns the start of a sequence.
func NewSequence(subs kit.Subs) Sequence {
	return Sequence{subs: subs, taken: make([]int, len(subs.Filters))}
}

// Sub is one exposure in a sequence.
type Sub struct {
	Filter   kit.Filter
	Exposure Span      // the shutter open
	Over     time.Time // when the next can start: download, any dither and change of filter done
}

// Done tells whether every filter has its wanted count.
func (s Sequence) Done() bool {
	s.only = 0
	return s.turn() < 0
}

// turn returns the filter whose sub comes next, −1 when all are complete.
func (s Sequence) turn() int {
	if s.only > 0 {
		return s.only - 1
	}
	for _, p := range s.laid {
		if p.count > 0 && s.taken[p.filter] < s.subs.Filters[p.filter].Count {
			return p.filter
		}
	}
	for i := range s.subs.Filters {
		f := (s.filter + i) % len(s.subs.Filters)
		if i == 0 && s.inARow >= s.subs.InARow && len(s.subs.Filters) > 1 && s.othersLeft() {
			continue
		}
		if s.taken[f] < s.subs.Filters[f].Count {
			return f
		}
	}
	return -1
}

// othersLeft tells whether any filter but the present one still lacks subs.
func (s Sequence) othersLeft() bool {
	for f, filter := range s.subs.Filters {
		if f != s.filter && s.taken[f] < filter.Count {
			return true
		}
	}
	return false
}

// Next returns the sub that starts at t and the sequence after it; ok is false when all are taken.
func (s Sequence) Next(t time.Time) (sub Sub, after Sequence, ok bool) {
	f := s.turn()
	if f < 0 {
		return Sub{}, s, false
	}
	after = s.counting(f)
	filter := s.subs.Filters[f]
	sub = Sub{Filter: filter, Exposure: Span{t, t.Add(filter.Exposure)}}
	sub.Over = sub.Exposure.To.Add(s.subs.Overhead)
	if after.Dithering() {
		sub.Over = sub.Over.Add(s.subs.DitherSettle)
	}
	if next := after.turn(); next >= 0 {
		sub.Over = sub.Over.Add(s.subs.ChangeTime(f, next))
	}
	return sub, after, true
}

// counting counts a sub through a filter.
func (s Sequence) counting(f int) Sequence {
	s.taken = slices.Clone(s.taken)
	s.taken[f]++
	if f != s.filter || s.inARow >= s.subs.InARow {
		s.filter, s.inARow = f, 0
	}
	s.inARow++
	if s.sinceDither++; s.subs.DitherEvery > 0 && s.sinceDither >= s.subs.DitherEvery {
		s.sinceDither = 0
	}
	s.laid = less(s.laid, f)
	return s
}

// less returns an order with one sub less through a filter, from the first part that has one.
func less(order []part, f int) []part {
	for i, p := range order {
		if p.filter != f || p.count == 0 {
			continue
		}
		order = slices.Clone(order)
		order[i].count--
		for len(order) > 0 && order[0].count == 0 {
			order = order[1:]
		}
		return order
	}
	return order
}

// Take counts a sub that was taken through the named filter, whoever's turn it was; the next turn follows from
// it. A filter that the kit does not have changes nothing.
func (s Sequence) Take(filter string) Sequence {
	for f := range s.subs.Filters {
		if s.subs.Filters[f].Name == filter {
			return s.counting(f)
		}
	}
	return s
}

// Dithering tells whether the last sub taken is one after which a dither comes.
func (s Sequence) Dithering() bool {
	return s.subs.DitherEvery > 0 && s.sinceDither == 0 && s.inARow > 0
}

// Taken returns how many subs of each filter are taken, in the kit's order.
func (s Sequence) Taken() []int { return slices.Clone(s.taken) }

// Exposed returns the time with the shutter open of all that is taken.
func (s Sequence) Exposed() (total time.Duration) {
	for f, n := range s.taken {
		total += time.Duration(n) * s.subs.Filters[f].Exposure
	}
	return total
}

// Skip counts n subs of the named filter as taken, as they were on an earlier night or run.
func (s Sequence) Skip(filter string, n int) Sequence {
	s.taken = slices.Clone(s.taken)
	for f := range s.subs.Filters {
		if s.subs.Filters[f].Name == filter {
			s.taken[f] += n
		}
	}
	return s
}

// TakeBack undoes a count of Take: of a sub that was exposed and is no part of what is wanted. The turns stay as they are.
func (s Sequence) TakeBack(filter string) Sequence { return s.Skip(filter, -1) }

// Taking returns the sequence with no filter below none: a sub may have been taken back before it was exposed.
func (s Sequence) Taking() Sequence {
	s.taken = slices.Clone(s.taken)
	for f := range s.taken {
		s.taken[f] = max(0, s.taken[f])
	}
	return s
}

// Run returns the subs that start at from or later and are over by until, and the sequence after them.
// None is cut short: the last is the last that ends, with its overhead, in time.
func (s Sequence) Run(from, until time.Time) ([]Sub, Sequence) {
	var subs []Sub
	for {
		sub, after, ok := s.Next(from)
		if !ok || sub.Over.After(until) {
			return subs, s
		}
		subs = append(subs, sub)
		s, from = after, sub.Over
	}
}

// Duty returns which share of the time in which subs follow one another the shutter is open: the mean of the subs that
// are still wanted, or of all if none is. (0, 1].
func (s Sequence) Duty() float64 {
	open, working := s.left()
	if working == 0 {
		open, working = NewSequence(s.subs).left()
	}
	if working == 0 {
		return 1
	}
	return open.Seconds() / working.Seconds()
}

// Working returns how long the subs that are still wanted take, their overheads and dithers included.
func (s Sequence) Working() time.Duration {
	_, working := s.left()
	return working
}

// left returns the exposure that is still wanted, and how long it takes.
func (s Sequence) left() (open, working time.Duration) {
	for f, filter := range s.subs.Filters {
		n := time.Duration(max(0, filter.Count-s.taken[f]))
		open += n * filter.Exposure
		working += n * (filter.Exposure + s.subs.Overhead)
		if every := time.Duration(s.subs.DitherEvery); every > 0 {
			working += n * s.subs.DitherSettle / every
		}
	}
	return open, working
}
