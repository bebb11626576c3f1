package plan

import "math"

// leg is one run of a schedule in the making: from, in seconds after the grid's origin, at an angle, to. It has its
// own reach.
type leg struct {
	from, angle, to float64
	reach           reach
	tracking        bool // goes on from before the schedule begins
	waits           bool // begins later than it could
	full            bool // ends where it must, not where the next begins better
}

// stands returns where the stage stands at the leg's end.
func (l *leg) stands() float64 { return l.angle + l.reach.at(l.reach.nominal, l.to) }

// whence is the state of the night that a schedule begins from, in the grid's terms.
type whence struct {
	known   bool
	angle   float64 // where the stage stands, if known
	free    float64 // s: nothing can be done before it
	first   *leg    // of the tracking
	between bool    // a run has just ended: the first turn is a rewind
}

// loop is what comes before the turn to the first run.
func (w whence) loop(p *programme) float64 {
	if w.between {
		return p.ahead
	}
	return 0
}

// legs returns the runs of the best schedule, by the values of the programme.
func (p *programme) legs(start whence) (legs []leg) {
	free, stands, known := start.free, start.angle, start.known
	if start.first != nil {
		l := *start.first
		_, l.to = p.bestEnd(&l.reach, l.angle)
		l.to = math.Max(l.to, l.from)
		l.full = l.to >= l.reach.end(l.angle)
		legs = append(legs, l)
		free, stands, known = l.to, l.stands(), true
	}
	for len(legs) < len(p.at) {
		l, ok := p.next(free, stands, known, len(legs) > 0 || start.between)
		if !ok {
			return legs
		}
		legs = append(legs, l)
		free, stands, known = l.to, l.stands(), true
	}
	return legs
}

// next returns the best run that begins after an instant.
func (p *programme) next(free, stands float64, known, rewinds bool) (best leg, ok bool) {
	least, loop, tail := 0.0, 0.0, 0.0
	if rewinds {
		least, loop, tail = p.price, p.ahead, p.tail
	}
	most := least
	for a := range p.columns {
		at := p.grid.after(free + loop)
		angle := p.angleFrom(at, a)
		if math.IsNaN(angle) {
			continue
		}
		soonest := free + loop
		if known {
			soonest += p.turning(stands, angle)
		}
		for _, s := range []float64{soonest, p.opened(p.later(soonest, a), tail)} {
			if s < soonest {
				continue
			}
			l, value, found := p.leg(s, tail, a)
			if known && found && s-free-loop < p.turning(stands, l.angle)-1e-6 {
				continue // the column's angle has moved away meanwhile
			}
			if found && value > most+1e-9 {
				most, best, ok = value, l, true
				best.waits = s > soonest+1
			}
		}
	}
	return best, ok
}

// later returns the start in a column, at an instant of the grid after s, that has the best value; −1 if none.
func (p *programme) later(s float64, column int) float64 {
	i := p.grid.after(s)
	if i >= len(p.at) || p.wait[i][column] == 0 {
		return -1
	}
	for p.value[i][column] < p.wait[i][column] {
		i++
	}
	return p.at[i]
}

// opened is an instant, or where no run with such a tail begins before its window opens, that opening.
func (p *programme) opened(s, tail float64) float64 {
	if w, open := p.startIn(s, tail); !open {
		return math.Max(s, w.from)
	}
	return s
}

// leg returns the run that starts at an instant in a column, with subs after a tail at the soonest, and its value.
func (p *programme) leg(s, tail float64, column int) (l leg, value float64, ok bool) {
	w, open := p.startIn(s, tail)
	if !open {
		return leg{}, 0, false
	}
	l.from = s
	p.reachFrom(s, tail, w, &l.reach)
	angles := make([]float64, p.columns)
	p.startsAt(s, &l.reach, angles)
	if l.angle = angles[column]; math.IsNaN(l.angle) {
		return leg{}, 0, false
	}
	if value, l.to = p.bestEnd(&l.reach, l.angle); value == 0 {
		return leg{}, 0, false
	}
	l.full = l.to >= l.reach.end(l.angle)
	return l, value, true
}

// refined moves the starts of the runs about where they are, ever finer, so that all together give the most.
func (p *programme) refined(start whence, legs []leg) []leg {
	for step := p.step / 6; step > 0.4; step /= 6 {
		legs = p.moved(start, legs, step)
	}
	return legs
}

// moves is how many steps a start is moved to either side.
const moves = 6

// moved is one round: the same programme over starts some steps about those of the legs.
func (p *programme) moved(start whence, legs []leg, step float64) []leg {
	n := len(legs)
	options := make([][]leg, n)
	for k, l := range legs {
		if l.tracking {
			options[k] = []leg{l}
			continue
		}
		for move := -moves; move <= moves; move++ {
			if o, ok := p.option(&l, l.from+float64(move)*step); ok {
				options[k] = append(options[k], o)
			}
		}
	}
	best := make([][]float64, n)
	then := make([][]int, n)
	for k := n - 1; k >= 0; k-- {
		best[k], then[k] = make([]float64, len(options[k])), make([]int, len(options[k]))
		for i := range options[k] {
			best[k][i], then[k][i] = math.Inf(-1), -1
			if k == n-1 {
				best[k][i] = p.worth(&options[k][i], options[k][i].reach.end(options[k][i].angle))
				continue
			}
			for j := range options[k+1] {
				to := p.endBefore(&options[k][i], &options[k+1][j])
				use := p.worth(&options[k][i], to)
				// Of equals the one whose first runs are longer.
				if total := use + best[k+1][j] + same*use*float64(n-k); total > best[k][i] {
					best[k][i], then[k][i] = total, j
				}
			}
		}
	}
	return p.chosen(start, legs, options, best, then)
}

// chosen follows the best of the options; the legs as they were if none serves.
func (p *programme) chosen(start whence, legs []leg, options [][]leg, best [][]float64, then [][]int) []leg {
	first, most := -1, math.Inf(-1)
	for i := range options[0] {
		o := &options[0][i]
		if start.known && !o.tracking && o.from < start.free+start.loop(p)+p.turning(start.angle, o.angle)-1e-6 || o.from < start.free {
			continue
		}
		if best[0][i] > most {
			first, most = i, best[0][i]
		}
	}
	if first < 0 {
		return legs
	}
	moved := make([]leg, len(legs))
	for k, i := 0, first; k < len(legs); k++ {
		moved[k] = options[k][i]
		moved[k].to = moved[k].reach.end(moved[k].angle)
		if k+1 < len(legs) {
			moved[k].to = p.endBefore(&options[k][i], &options[k+1][then[k][i]])
		}
		moved[k].full = moved[k].to >= moved[k].reach.end(moved[k].angle)-1e-6
		i = then[k][i]
	}
	p.markWaits(start, moved)
	return moved
}

// markWaits tells which runs begin later than they could.
func (p *programme) markWaits(start whence, legs []leg) {
	free, stands, known, loop := start.free, start.angle, start.known, start.loop(p)
	for k := range legs {
		l := &legs[k]
		soonest := free + loop
		if known {
			soonest += p.turning(stands, l.angle)
		}
		l.waits = !l.tracking && l.from > soonest+1
		free, stands, known, loop = l.to, l.stands(), true, p.ahead
	}
}

// option is a leg begun at another instant: from the same angle or, of a start in the middle of what serves, from
// there again.
func (p *programme) option(l *leg, s float64) (o leg, ok bool) {
	w, open := p.startIn(s, l.reach.tail)
	if !open {
		return leg{}, false
	}
	o = leg{from: s, angle: l.angle}
	p.reachFrom(s, l.reach.tail, w, &o.reach)
	switch {
	case p.ruled():
		angles := make([]float64, p.columns)
		p.startsAt(s, &o.reach, angles)
		o.angle = math.NaN()
		for _, angle := range angles {
			if math.Abs(angle-l.angle) <= likeAngles && !(math.Abs(angle-l.angle) > math.Abs(o.angle-l.angle)) {
				o.angle = angle
			}
		}
		return o, !math.IsNaN(o.angle)
	case p.anywhere && math.Abs(l.angle-l.reach.best()) < 1e-9:
		o.angle = o.reach.best()
	}
	return o, true
}

// worth is what a leg gives up to an instant; nothing but −∞ if that leaves no room for a sub.
func (p *programme) worth(l *leg, to float64) float64 {
	usable := l.reach.usable(to)
	if usable < p.least && !(l.tracking && usable >= 0) {
		return math.Inf(-1)
	}
	return usable
}

// endBefore returns when a leg must end so that the next can begin where it does.
func (p *programme) endBefore(l, next *leg) float64 {
	to := math.Min(l.reach.end(l.angle), next.from-p.ahead)
	for range 3 {
		to = math.Min(l.reach.end(l.angle), next.from-p.ahead-p.turning(l.angle+l.reach.at(l.reach.nominal, to), next.angle))
	}
	return to
}
