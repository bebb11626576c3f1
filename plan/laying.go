package plan

import "duskhand/plan/kit"

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
	since    int // subs since the last dither
	every    int // subs from dither to dither, 0 for none
	settle   float64
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
	from, chunk int // the state it came from, −1 for the beginning, and how many subs that took
}

// ok tells whether subs were taken on the way: whether it leads anywhere.
func (c cursor) ok() bool { return c.chunk > 0 }

// open is what a second with the shutter open counts beside its worth, so that subs worth nothing are taken too.
const open = 1e-3

func newLaying(s Sequence, spans []Span) *laying {
	l := &laying{
		worth: s.worth, shortest: max(1, s.subs.InARow), price: s.subs.WorthAChange.Seconds(), overhead: s.subs.Overhead.Seconds(),
		since: s.sinceDither, every: s.subs.DitherEvery, settle: s.subs.DitherSettle.Seconds(),
		step: s.worth.Step.Seconds(), origin: s.worth.From.Sub(spans[0].From).Seconds(),
	}
	for _, span := range spans {
		l.spans = append(l.spans, stretchS{span.From.Sub(spans[0].From).Seconds(), span.To.Sub(spans[0].From).Seconds()})
	}
	l.begins = cursor{place: -1, at: l.spans[0].from, from: -1}
	for f, filter := range s.subs.Filters {
		n := filter.Count - s.taken[f]
		if n <= 0 {
			continue
		}
		if f == s.filter && s.inARow > 0 {
			l.begins.place = len(l.filters)
		}
		l.filters, l.left = append(l.filters, f), append(l.left, n)
		l.exposure, l.sums = append(l.exposure, filter.Exposure.Seconds()), append(l.sums, summed(s.worth.ByFilter[f], l.step))
	}
	l.change = changesBetween(s.subs, l.filters)
	return l
}

// changesBetween returns what a change takes from each of some filters to each, in seconds.
func changesBetween(subs kit.Subs, filters []int) [][]float64 {
	change := make([][]float64, len(filters))
	for i, from := range filters {
		for _, to := range filters {
			change[i] = append(change[i], subs.ChangeTime(from, to).Seconds())
		}
	}
	return change
}

// dither returns how long the dither after the total-th sub takes.
func (l *laying) dither(total int) float64 {
	if l.every > 0 && (l.since+total)%l.every == 0 {
		return l.settle
	}
	return 0
}

// eachTakes returns how long a sub takes on the average, its share of the dithers included.
func (l *laying) eachTakes(place int) float64 {
	each := l.exposure[place] + l.overhead
	if l.every > 0 {
		each += l.settle / float64(l.every)
	}
	return each
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
	each := l.eachTakes(place)
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
