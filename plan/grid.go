package plan

import (
	"math"
	"slices"
	"time"
)

// grid is a night's remaining windows on instants that the programme looks at, and χ for all axes there, computed
// once.
type grid struct {
	course  *Course
	origin  time.Time
	step    float64   // s
	at      []float64 // seconds after origin, ascending
	first   []int     // by steps after origin: the first instant not before
	windows []openSpan
	chi     []float64 // nominal, radians, sense included
	offsets [][rimAxes]float64
}

// openSpan is a window in seconds after the grid's origin. Windows of one chain have nothing between them that keeps
// the derotator from tracking on.
type openSpan struct {
	Span                   // the same as instants, to the nanosecond
	from, to, open float64 // open: seconds of windows before it
	chain          int
	until          float64 // the end of the chain
	untilAt        time.Time
}

// gridOf lays a grid over windows from an instant on; ok is false if none is left.
func (c *Course) gridOf(windows []Window, from time.Time, step time.Duration, extra []time.Time) (g *grid, ok bool) {
	g = &grid{course: c, origin: from, step: step.Seconds()}
	open := 0.0
	for i, w := range windows {
		if !w.To.After(from) {
			continue
		}
		s := openSpan{Span: Span{later(w.From, from), w.To}, from: g.seconds(later(w.From, from)), to: g.seconds(w.To), open: open}
		if n := len(g.windows); n > 0 {
			s.chain = g.windows[n-1].chain
			if !windows[i-1].tracksOn(w) {
				s.chain++
			}
		}
		open += s.to - s.from
		g.windows = append(g.windows, s)
	}
	if len(g.windows) == 0 {
		return nil, false
	}
	for i := range g.windows {
		for _, other := range g.windows[i:] {
			if other.chain == g.windows[i].chain {
				g.windows[i].until, g.windows[i].untilAt = other.to, other.To
			}
		}
	}
	g.lay(extra)
	return g, true
}

// tracksOn tells whether a derotator that tracks at the window's end can go on tracking to the next: only the
// horizon profile or the altitude floor hides the target between them.
func (w Window) tracksOn(next Window) bool {
	hidden := func(b Bound) bool { return b == ByHorizon || b == ByFloor }
	return hidden(w.ClosesBefore) && hidden(next.OpensAfter)
}

func (g *grid) seconds(t time.Time) float64 { return t.Sub(g.origin).Seconds() }
func (g *grid) time(s float64) time.Time    { return g.origin.Add(seconds(s)) }

// clear is by how many seconds a limit must come after the end of the windows not to count: the grid's own error.
const clear = 5

// lay fills in the instants: equal steps through each chain, and the windows' ends.
func (g *grid) lay(extra []time.Time) {
	last := g.windows[len(g.windows)-1].to
	var at []float64
	for i, w := range g.windows {
		if i > 0 && g.windows[i-1].chain == w.chain {
			at = append(at, between(g.windows[i-1].to, w.from, g.step)...)
		}
		at = append(at, between(w.from, w.to, g.step)...)
		at = append(at, w.to)
		if w.to == w.until {
			at = append(at, w.to+2*clear)
		}
	}
	for _, t := range extra {
		at = append(at, g.seconds(t))
	}
	g.at = ascending(at)
	g.first = make([]int, int(last/g.step)+2)
	i := 0
	for k := range g.first {
		for i < len(g.at) && g.at[i] < float64(k)*g.step {
			i++
		}
		g.first[k] = i
	}
	g.chi, g.offsets = make([]float64, len(g.at)), make([][rimAxes]float64, len(g.at))
	for i, s := range g.at {
		g.chi[i], g.offsets[i] = g.sky(s)
	}
}

// sky returns the nominal mechanical angle, but for a constant, and the offsets of the rim's axes.
func (g *grid) sky(s float64) (chi float64, offsets [rimAxes]float64) {
	c, t := g.course, g.time(s)
	chi = float64(c.Kit.Derotator.Sense) * float64(c.nominal.At(t))
	if c.rim != nil {
		offsets = c.rim.at(c.axes.centre, c.track.At(t))
	}
	return chi, offsets
}

// after returns the index of the first instant not before s.
func (g *grid) after(s float64) int {
	k := int(s / g.step)
	if k < 0 {
		return 0
	}
	if k >= len(g.first) {
		return len(g.at)
	}
	i := g.first[k]
	for i < len(g.at) && g.at[i] < s {
		i++
	}
	return i
}

// window returns the window that an instant lies in, its end excluded.
func (g *grid) window(s float64) (w openSpan, ok bool) {
	for _, w := range g.windows {
		if s < w.to {
			return w, s >= w.from
		}
	}
	return openSpan{}, false
}

// startIn returns the window that a run begins in which starts at an instant: the one that lies there, or the first of a
// chain that opens within the tail in which nothing is exposed yet.
func (g *grid) startIn(s, tail float64) (w openSpan, ok bool) {
	for i, w := range g.windows {
		if s >= w.to {
			continue
		}
		return w, s >= w.from || s >= w.from-tail && (i == 0 || g.windows[i-1].chain != w.chain)
	}
	return openSpan{}, false
}

// open returns how many seconds of windows lie before an instant, and how many windows have begun by then.
func (g *grid) open(s float64) (open float64, begun int) {
	for _, w := range g.windows {
		if s <= w.from {
			break
		}
		open, begun = w.open+math.Min(s, w.to)-w.from, begun+1
	}
	return open, begun
}

// between returns the instants of equal steps from one instant to before another.
func between(from, to, step float64) (at []float64) {
	n := int(math.Ceil((to - from) / step))
	for k := range n {
		at = append(at, from+(to-from)*float64(k)/float64(n))
	}
	return at
}

// ascending sorts instants and drops those that are another again.
func ascending(at []float64) []float64 {
	slices.Sort(at)
	return slices.CompactFunc(at, func(a, b float64) bool { return math.Abs(b-a) < 1e-3 })
}
