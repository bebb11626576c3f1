package plan

import (
	"time"
)

// Worth is what a minute of subs is worth through each filter, at instants one Step apart: the rate at which the
// square of the signal to noise grows, against the best conditions there are. Package light computes it.
type Worth struct {
	From     time.Time
	Step     time.Duration
	ByFilter [][]float64 // by the filter's number in the kit, then by instant; 0 to about 1
}

// At returns the worth through a filter at an instant, straight between those given; beyond them that of the nearest.
func (w *Worth) At(filter int, t time.Time) float64 {
	return w.between(filter, float64(t.Sub(w.From))/float64(w.Step))
}

func (w *Worth) between(filter int, at float64) float64 {
	values := w.ByFilter[filter]
	last := len(values) - 1
	switch {
	case last < 0:
		return 0
	case at <= 0:
		return values[0]
	case at >= float64(last):
		return values[last]
	}
	i := int(at)
	share := at - float64(i)
	return values[i] + share*(values[i+1]-values[i])
}

// Of returns what a sub is worth, as seconds under the best sky: by the middle of its exposure.
func (w *Worth) Of(filter int, sub Span) float64 {
	return w.At(filter, sub.From.Add(sub.Length()/2)) * sub.Length().Seconds()
}

// By returns the sequence with what subs are worth: Schedule then lays their order.
func (s Sequence) By(worth *Worth) Sequence {
	s.worth = worth
	return s
}

// Worth returns what subs are worth by which the order is laid; nil for none.
func (s Sequence) Worth() *Worth { return s.worth }

// InOrder returns the sequence with an order that holds from now on: so many subs through a filter, then so many
// through another. Filters that the kit does not have are passed over; none leaves the sequence without an order.
func (s Sequence) InOrder(order []FilterCount) Sequence {
	s.laid = nil
	for _, c := range order {
		for f := range s.subs.Filters {
			if s.subs.Filters[f].Name == c.Filter {
				s.laid = append(s.laid, part{f, c.Count})
			}
		}
	}
	return s
}

// Order returns the order that was laid and what is left of it; none where the filters take turns as the kit has it.
func (s Sequence) Order() (order []FilterCount) {
	for _, p := range s.laid {
		if p.count > 0 {
			order = append(order, FilterCount{s.subs.Filters[p.filter].Name, p.count})
		}
	}
	return order
}
