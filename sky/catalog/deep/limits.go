package deep

import (
	"math"

	"duskhand/sky"
)

// Limit says what the layer has for drawing a circle of the sky, and so what the drawing leaves out.
type Limit struct {
	Stars int // in the circle, of whatever magnitude

	// CompleteTo is the VT to which the circle has every star that Tycho-2 has, rounded down to 0.05; the
	// stars beyond it are some of those there are. At most 11.0, where Tycho-2 itself begins to miss some.
	CompleteTo float64

	// Faintest is the VT of the faintest star of the circle; it means nothing where Stars is 0.
	Faintest float64
}

// Limits returns what the layer has within radius of centre.
//
// Range:  radius as for Near; where there is no circle the result is zero.
// Error:  CompleteTo is that of the poorest cell, of 1.1 square degrees, that the circle touches or
// passes within a few arcminutes: for the circle alone it may be too low, never too high. Not counted are
// the stars that Tycho-2 lacks above its own limit, 0.2 per cent of Hipparcos's between V 6.5 and 8.
// Source: Høg et al. 2000, A&A 355, L27, for Tycho-2: 99 per cent complete to V 11.0.
func Limits(centre sky.J2000, radius sky.Angle) Limit {
	circle, ok := newCap(centre, radius)
	if !ok {
		return Limit{}
	}
	limit := Limit{CompleteTo: math.Inf(1), Faintest: math.Inf(-1)}
	for c := range circle.cells() {
		if c.complete() < limit.CompleteTo && circle.touches(c) {
			limit.CompleteTo = c.complete()
		}
		for i := c.first(); i < c.drawn(); i++ {
			if circle.holds(c.place(i).Direction()) {
				limit.Stars++
				limit.Faintest = max(limit.Faintest, magnitudeAt(starsFrom+i*starBytes))
			}
		}
	}
	if limit.Stars == 0 {
		limit.Faintest = 0
	}
	return limit
}

// touches tells whether the cap reaches the cell, by a grid of points 8′ apart in it with as much to spare.
func (c skyCap) touches(of cell) bool {
	const steps = 8
	wider := c
	half := (min(c.radius+8*sky.Arcminute, 180*sky.Degree) / 2).Sin()
	wider.chord2 = max(c.chord2, 4*half*half)
	for u := range steps + 1 {
		for v := range steps + 1 {
			if wider.holds(of.point(float64(u)/steps, float64(v)/steps).Direction()) {
				return true
			}
		}
	}
	return false
}
