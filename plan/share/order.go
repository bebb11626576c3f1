package share

import (
	"math"
	"slices"
)

// placed is an order of items with the best hand-overs for it: item i begins at times[begins[i]] and ends
// where the next begins, the last at times[end].
type placed struct {
	order  []int
	begins []int
	end    int
	worth  float64
}

// search tries every order. Orders with the same beginning share what was found for it.
type search struct {
	items []item
	n     int     // of the grid
	haste float64 // worth that a step of the grid costs by which the last stretch ends later
	found []placed
}

// best returns the orders with the best hand-overs of each, the best order first, at most so many.
func best(items []item, n, atMost int, haste float64) []placed {
	s := search{items: items, n: n, haste: haste}
	start := make([]float64, n)
	s.extend(nil, start)
	slices.SortStableFunc(s.found, func(a, b placed) int {
		switch {
		case a.worth > b.worth:
			return -1
		case a.worth < b.worth:
			return 1
		}
		return slices.Compare(a.order, b.order)
	})
	if len(s.found) > atMost {
		s.found = s.found[:atMost]
	}
	for i := range s.found {
		s.handOvers(&s.found[i])
	}
	return s.found
}

// extend adds each item that is left to an order, whose best worth by end is in reached.
func (s *search) extend(order []int, reached []float64) {
	if len(order) == len(s.items) {
		_, worth := s.largest(reached)
		s.found = append(s.found, placed{order: slices.Clone(order), worth: worth})
		return
	}
	for i := range s.items {
		twin := i > 0 && s.items[i].wish == s.items[i-1].wish
		if slices.Contains(order, i) || twin && !slices.Contains(order, i-1) {
			continue // of two halves alike, the first comes first
		}
		s.extend(append(order, i), s.after(i, len(order) == 0, reached))
	}
}

// after returns the best worth by end when item i follows what reached says.
func (s *search) after(i int, isFirst bool, reached []float64) []float64 {
	rows := s.items[i].later
	if isFirst {
		rows = s.items[i].first
	}
	next := make([]float64, s.n)
	for b := range next {
		next[b] = math.Inf(-1)
	}
	for a, before := range reached {
		if math.IsInf(before, -1) {
			continue
		}
		row := rows[a]
		for b := a + 1; b < s.n; b++ {
			if w := before + row[b]; w > next[b] {
				next[b] = w
			}
		}
	}
	return next
}

// handOvers goes an order once more and walks back from its best end.
func (s *search) handOvers(p *placed) {
	reached := [][]float64{make([]float64, s.n)}
	for k, i := range p.order {
		reached = append(reached, s.after(i, k == 0, reached[k]))
	}
	p.end, p.worth = s.largest(reached[len(p.order)])
	p.begins = make([]int, len(p.order))
	for k, end := len(p.order)-1, p.end; k >= 0; k-- {
		rows := s.items[p.order[k]].later
		if k == 0 {
			rows = s.items[p.order[k]].first
		}
		from, most := 0, math.Inf(-1)
		for a := range end {
			if w := reached[k][a] + rows[a][end]; w > most {
				from, most = a, w
			}
		}
		p.begins[k], end = from, from
	}
}

// largest returns the first largest value, haste counted, and where it is.
func (s *search) largest(values []float64) (at int, value float64) {
	value = math.Inf(-1)
	for i, v := range values {
		if v -= s.haste * float64(i); v > value {
			at, value = i, v
		}
	}
	return at, value
}
