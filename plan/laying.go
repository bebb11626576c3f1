package plan

import "math"

// laying finds the order of filters in which what is left of a target's subs is worth most in the time that its runs
// have. The worth of what is left depends on how many of each filter are taken, on the filter that is in and on the
// instant, and of these the instant follows from the others but for the odd minutes at a run's end. So a dynamic
// programme over the counts finds it, in steps of some subs where there are many; what the steps are too coarse for
// is then put right sub by sub.
//
// Source: the principle of optimality, Bellman 1957, Dynamic Programming, ch. III.
// Error:  none for subs of one length in steps of one; else within 0.5 % of the assignment of subs to slots
// (TestTheOrderIsWithinHalfAPercentOfTheAssignment).
type laying struct {
	worth    *Worth
	spans    []stretchS
	filters  []int // those with subs left
	left     []int // by place in filters
	shortest int
	dither   func(total int) float64
	dithers  float64     // s for each sub, on the average
	sums     [][]float64 // of worth from its first instant on, s, by place
	exposure []float64
	overhead float64
	change   [][]float64 // s, by place
	price    float64
	step     float64 // s between instants of worth
	origin   float64 // of worth, s after the first span's beginning
	begins   cursor
}

// stretchS is a stretch in seconds.
type stretchS struct{ from, to float64 }

// cursor is a way through the stretches: where it has come to, and what it was worth.
type cursor struct {
	value, at   float64
	span        int
	place       int // of the filter that is in, −1 for none
	total       int // subs so far
	from, chunk int // the state it came from, and how many subs that took
	ok          bool
}

// mostStates bounds the work: some milliseconds.
const mostStates = 2000

// open is what a second with the shutter open counts beside its worth, so that subs worth nothing are taken too.
const open = 1e-3

func newLaying(s Sequence, spans []Span) *laying {
	l := &laying{worth: s.worth, shortest: max(1, s.subs.InARow), overhead: s.subs.Overhead.Seconds(), price: s.subs.WorthAChange.Seconds(), step: s.worth.Step.Seconds()}
	l.origin = s.worth.From.Sub(spans[0].From).Seconds()
	for _, span := range spans {
		l.spans = append(l.spans, stretchS{span.From.Sub(spans[0].From).Seconds(), span.To.Sub(spans[0].From).Seconds()})
	}
	l.begins = cursor{place: -1, ok: true, at: l.spans[0].from, from: -1}
	for f, filter := range s.subs.Filters {
		if n := filter.Count - s.taken[f]; n > 0 {
			if f == s.filter && s.inARow > 0 {
				l.begins.place = len(l.filters)
			}
			l.filters, l.left, l.exposure = append(l.filters, f), append(l.left, n), append(l.exposure, filter.Exposure.Seconds())
		}
	}
	for _, f := range l.filters {
		var row []float64
		for _, g := range l.filters {
			row = append(row, s.subs.ChangeTime(f, g).Seconds())
		}
		l.change = append(l.change, row)
	}
	every, settle := s.subs.DitherEvery, s.subs.DitherSettle.Seconds()
	l.dither = func(total int) float64 {
		if every > 0 && (s.sinceDither+total)%every == 0 {
			return settle
		}
		return 0
	}
	if every > 0 {
		l.dithers = settle / float64(every)
	}
	for _, f := range l.filters {
		l.sums = append(l.sums, summed(s.worth.ByFilter[f], l.step))
	}
	return l
}

// summed returns the integral over values one step apart, from the first to each.
func summed(values []float64, step float64) []float64 {
	sums := make([]float64, len(values))
	for i := 1; i < len(values); i++ {
		sums[i] = sums[i-1] + step*(values[i-1]+values[i])/2
	}
	return sums
}

// meanWorth returns the mean worth between two instants.
func (l *laying) meanWorth(place int, from, to float64) float64 {
	sums, a, b := l.sums[place], (from-l.origin)/l.step, (to-l.origin)/l.step
	if last := float64(len(sums) - 1); a < 0 || b > last || b <= a {
		return l.worth.between(l.filters[place], (a+b)/2)
	}
	at := func(x float64) float64 {
		i := min(int(x), len(sums)-2)
		return sums[i] + (x-float64(i))*(sums[i+1]-sums[i])
	}
	return (at(b) - at(a)) / (to - from)
}

// take takes one sub through a filter; ok is false when no stretch has room for it.
func (l *laying) take(c cursor, place int) (cursor, bool) {
	begin, change := c.at, 0.0
	if c.place >= 0 && c.place != place {
		change = l.change[c.place][place]
		c.value -= l.price + change
	}
	c.total++
	for begin += change; ; begin = l.spans[c.span].from {
		end := begin + l.exposure[place]
		if over := end + l.overhead + l.dither(c.total); over <= l.spans[c.span].to {
			middle := (begin + l.exposure[place]/2 - l.origin) / l.step
			c.value += l.exposure[place] * (l.worth.between(l.filters[place], middle) + open)
			c.at, c.place = over, place
			return c, true
		}
		if c.span++; c.span == len(l.spans) {
			return c, false
		}
	}
}

// fewSubs is up to how many subs of a step are taken one by one; of more the mean over them serves.
const fewSubs = 3

// takeStep takes the subs of a step, as far as there is room.
func (l *laying) takeStep(c cursor, place, n int) (cursor, int) {
	if n <= fewSubs {
		return l.takeSome(c, place, n)
	}
	c, taken := l.takeSome(c, place, 1) // with the change of filter
	each := l.exposure[place] + l.overhead + l.dithers
	for taken > 0 && taken < n {
		fit := min(n-taken, int((l.spans[c.span].to-c.at)/each+1e-9))
		if fit > 0 {
			to := c.at + float64(fit)*each
			c.value += float64(fit) * l.exposure[place] * (l.meanWorth(place, c.at, to) + open)
			c.at, c.total, taken = to, c.total+fit, taken+fit
		}
		if taken == n {
			break
		}
		if c.span+1 == len(l.spans) {
			return c, taken
		}
		c.span++
		c.at = l.spans[c.span].from
	}
	return c, taken
}

// takeSome takes so many subs through a filter, as far as there is room.
func (l *laying) takeSome(c cursor, place, n int) (cursor, int) {
	for i := range n {
		next, ok := l.take(c, place)
		if !ok {
			return c, i
		}
		c = next
	}
	return c, n
}

// steps returns into how many steps the subs of each filter are divided, each of the shortest group at least.
func (l *laying) steps() []int {
	steps := make([]int, len(l.left))
	for per := 200; ; per-- {
		states := 1
		for i, n := range l.left {
			steps[i] = max(1, min(per, n/l.shortest))
			states *= steps[i] + 1
		}
		if states <= mostStates || per == 1 {
			return steps
		}
	}
}

// upTo returns how many subs of a filter the first k of its steps have.
func (l *laying) upTo(place, k, steps int) int {
	return int(math.Round(float64(k) * float64(l.left[place]) / float64(steps)))
}

// order returns the best order, by place.
func (l *laying) order() []part {
	steps := l.steps()
	stride, states := make([]int, len(steps)), 1
	for i, n := range steps {
		stride[i] = states
		states *= n + 1
	}
	n := len(steps)
	best := make([]cursor, (states+1)*n) // the last row is for the beginning
	most, last, tail := l.begins, -1, part{}
	for state := range states {
		for came := range n {
			here := best[state*n+came]
			at := state*n + came
			if state == 0 {
				if came > 0 {
					break
				}
				here, at = l.begins, -1
			}
			if !here.ok {
				continue
			}
			for place := range n {
				k := state / stride[place] % (steps[place] + 1)
				if k == steps[place] {
					continue
				}
				chunk := l.upTo(place, k+1, steps[place]) - l.upTo(place, k, steps[place])
				next, taken := l.takeStep(here, place, chunk)
				if next.from = at; taken > 0 && next.value > most.value {
					most, last, tail = next, at, part{place, taken}
				}
				if next.chunk = taken; taken < chunk {
					continue
				}
				if to := &best[(state+stride[place])*n+place]; !to.ok || next.value > to.value {
					*to = next
				}
			}
		}
	}
	if tail.count == 0 {
		return nil
	}
	parts := []part{tail}
	for at := last; at >= 0; at = best[at].from {
		parts = append([]part{{best[at].place, best[at].chunk}}, parts...)
	}
	return l.improved(merged(parts))
}

// merged joins neighbours of one filter and drops what is empty.
func merged(parts []part) (all []part) {
	for _, p := range parts {
		switch n := len(all); {
		case p.count == 0:
		case n > 0 && all[n-1].filter == p.filter:
			all[n-1].count += p.count
		default:
			all = append(all, p)
		}
	}
	return all
}
