package plan

import (
	"math"
	"sort"
	"time"
)

// reach is how far the mechanical angle comes from where it stands at an instant, at the instants of the grid after
// it: for the axis as known, and the least and greatest over all axes by then. It ends where that is more than the
// travel, or with the chain of windows.
type reach struct {
	grid               *grid
	from               float64 // s
	until              float64 // the end of the chain
	untilAt            time.Time
	first              int // the first instant of the grid after it
	nominal, low, high []float64
	lowEdge, highEdge  float64 // the derotator's limits
	margin, settle     float64
	open               float64 // seconds of windows before from and its tail
	begun              int     // windows begun before the one that those end in
	settled            bool    // it tracks already: the first window of it needs no settling
	tail               float64 // seconds after from in which nothing is exposed yet
}

// reachFrom returns the reach from an instant within a window of the grid. into lends its memory.
func (g *grid) reachFrom(s, tail float64, within openSpan, into *reach) {
	chi, offsets := g.sky(s)
	g.reachOf(s, s, tail, chi, &offsets, within, into)
}

// reachOf is reachFrom for a derotator that is anchored at another instant, where χ and offsets are given.
func (g *grid) reachOf(s, from, tail, chi float64, offsets *[rimAxes]float64, within openSpan, into *reach) {
	d := g.course.Kit.Derotator
	into.grid, into.from, into.until, into.untilAt = g, from, within.until, within.untilAt
	into.lowEdge, into.highEdge = float64(d.Min), float64(d.Max)
	into.margin, into.settle, into.settled, into.tail = d.Margin.Seconds(), g.course.Kit.Subs.Settle.Seconds(), false, tail
	into.open, into.begun = g.open(from + tail)
	if w, open := g.window(from + tail); open && from+tail > w.from {
		into.begun-- // it settles in what is left of that one
	}
	into.nominal, into.low, into.high = into.nominal[:0], into.low[:0], into.high[:0]
	turned := turning{sense: float64(d.Sense), offsets: *offsets}
	travel, low, high := float64(d.Travel()), 0.0, 0.0
	into.first = g.after(from)
	if into.first < len(g.at) && g.at[into.first] <= from {
		into.first++
	}
	for i := into.first; i < len(g.at) && g.at[i] <= within.until+2*clear; i++ {
		nominal := g.chi[i] - chi
		least, most := nominal, nominal
		if g.course.rim != nil {
			l, h := turned.between(&g.offsets[i])
			least, most = nominal+l, nominal+h
		}
		low, high = math.Min(low, least), math.Max(high, most)
		into.nominal, into.low, into.high = append(into.nominal, nominal), append(into.low, low), append(into.high, high)
		if high-low > travel {
			return
		}
	}
}

// at returns one of the reach's angles at an instant, with a straight line between those of the grid.
func (r *reach) at(of []float64, s float64) float64 {
	if len(of) == 0 || s <= r.from {
		return 0
	}
	i := r.grid.after(s) - r.first
	if i >= len(of) {
		return of[len(of)-1]
	}
	before, was := r.from, 0.0
	if i > 0 {
		before, was = r.grid.at[r.first+i-1], of[i-1]
	}
	i = max(i, 0)
	return was + (of[i]-was)*(s-before)/(r.grid.at[r.first+i]-before)
}

// exit returns when a start at an angle reaches a limit for the first axis; +Inf if not before the chain's end.
func (r *reach) exit(angle float64) float64 {
	up, down := roomLess(r.highEdge-angle), -roomLess(angle-r.lowEdge)
	n := len(r.high)
	i := sort.Search(n, func(i int) bool { return r.high[i] > up || r.low[i] < down })
	if i == n {
		return math.Inf(1)
	}
	before, high, low := r.from, 0.0, 0.0
	if i > 0 {
		before, high, low = r.grid.at[r.first+i-1], r.high[i-1], r.low[i-1]
	}
	share := 1.0
	if r.high[i] > up {
		share = (up - high) / (r.high[i] - high)
	}
	if r.low[i] < down {
		share = math.Min(share, (down-low)/(r.low[i]-low))
	}
	return before + share*(r.grid.at[r.first+i]-before)
}

// roomLess returns the room before a limit less the error of the grid, some seconds of arc.
func roomLess(room float64) float64 {
	const gridError, rounding = 2e-5, 1e-9
	if room <= gridError {
		return math.Max(0, room) + rounding
	}
	return room - gridError
}

// end returns when the last sub of a run from an angle must be over.
func (r *reach) end(angle float64) float64 {
	exit := r.exit(angle)
	if exit > r.until+clear {
		return r.until
	}
	return exit - r.margin
}

// usable returns the seconds of a run, up to an instant, in which subs can be taken: windows, less settling in each.
func (r *reach) usable(to float64) float64 {
	open, begun := r.grid.open(to)
	return r.usableOf(open, begun)
}

func (r *reach) usableOf(open float64, begun int) float64 {
	windows := begun - r.begun
	if r.settled {
		windows--
	}
	return open - r.open - float64(windows)*r.settle
}

// best returns the angle from which a run lasts longest: the middle of what serves.
func (r *reach) best() float64 {
	travel := r.highEdge - r.lowEdge
	n := len(r.high)
	i := sort.Search(n, func(i int) bool { return r.high[i]-r.low[i] > travel-2*guardAt(r.low[i], r.high[i]) })
	low, high := 0.0, 0.0
	if i > 0 {
		low, high = r.low[i-1], r.high[i-1]
	}
	if i < n {
		share := (travel - 2*guardAt(r.low[i], r.high[i]) - (high - low)) / (r.high[i] - r.low[i] - high + low)
		share = math.Max(0, math.Min(1, share))
		low, high = low+share*(r.low[i]-low), high+share*(r.high[i]-high)
	}
	switch {
	case i < n && low == 0:
		return r.lowEdge
	case i < n && high == 0:
		return r.highEdge
	}
	return math.Max(r.lowEdge, math.Min((r.lowEdge-low+r.highEdge-high)/2, r.highEdge))
}

func guardAt(low, high float64) float64 {
	if low < 0 && high > 0 {
		return float64(guard)
	}
	return 0
}
