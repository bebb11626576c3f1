package plan

import (
	"math"
	"slices"
)

// mostStates bounds the work: some milliseconds.
const mostStates = 2000

// lattice is the dynamic programme of a laying: its states are how many steps of each filter are taken and which
// filter is in, and of each it keeps the best way there.
type lattice struct {
	*laying
	steps  []int // by place: into how many the filter's subs are divided
	stride []int // by place: how far apart states are that differ by one step
	states int
	best   []cursor // by state and place
	most   cursor   // the best of all ways, which may end within a step
}

func newLattice(l *laying) *lattice {
	g := &lattice{laying: l, steps: l.steps(), states: 1, most: l.begins}
	for _, n := range g.steps {
		g.stride = append(g.stride, g.states)
		g.states *= n + 1
	}
	g.best = make([]cursor, g.states*len(g.steps))
	return g
}

// mostSteps is into how many steps the subs of a filter are divided at most: with two filters so many make far more
// states than are allowed.
const mostSteps = 200

// steps returns into how many steps the subs of each filter are divided, each of the shortest group at least.
func (l *laying) steps() []int {
	steps := make([]int, len(l.left))
	for per := mostSteps; ; per-- {
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

// order returns the best order, by place.
func (l *laying) order() []part {
	g := newLattice(l)
	g.extend(g.begins, 0, -1)
	for at, here := range g.best {
		if here.ok() {
			g.extend(here, at/len(g.steps), at)
		}
	}
	return l.improved(merged(g.way()))
}

// extend goes on from a state, by a step of each filter that has one left.
func (g *lattice) extend(here cursor, state, at int) {
	for place, steps := range g.steps {
		k := state / g.stride[place] % (steps + 1)
		if k == steps {
			continue
		}
		wanted := g.upTo(place, k+1) - g.upTo(place, k)
		next, taken := g.takeStep(here, place, wanted)
		next.from, next.chunk = at, taken
		if taken > 0 && next.value > g.most.value {
			g.most = next
		}
		to := &g.best[(state+g.stride[place])*len(g.steps)+place]
		if taken == wanted && (!to.ok() || next.value > to.value) {
			*to = next
		}
	}
}

// upTo returns how many subs of a filter the first k of its steps have.
func (g *lattice) upTo(place, k int) int {
	return int(math.Round(float64(k) * float64(g.left[place]) / float64(g.steps[place])))
}

// way returns the steps of the best way.
func (g *lattice) way() (parts []part) {
	for c := g.most; c.ok(); c = g.best[c.from] {
		if parts = append(parts, part{c.place, c.chunk}); c.from < 0 {
			break
		}
	}
	slices.Reverse(parts)
	return parts
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
