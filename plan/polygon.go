package plan

import "math"

// point is a place in a plane whose unit its user knows.
type point struct{ x, y float64 }

// polygon is convex, its corners anticlockwise.
type polygon []point

// halfPlane holds the points whose product with (x, y), a unit vector or its size, is at most within.
type halfPlane struct{ x, y, within float64 }

// inside returns by how much p lies inside, negative outside.
func (h halfPlane) inside(p point) float64 { return h.within - h.x*p.x - h.y*p.y }

// clip returns the part of p inside h.
func (p polygon) clip(h halfPlane) polygon {
	var kept polygon
	for i, from := range p {
		to := p[(i+1)%len(p)]
		a, b := h.inside(from), h.inside(to)
		if a >= 0 {
			kept = kept.with(from)
		}
		if (a > 0) != (b > 0) && a != 0 && b != 0 {
			along := a / (a - b)
			kept = kept.with(point{from.x + along*(to.x-from.x), from.y + along*(to.y-from.y)})
		}
	}
	for len(kept) > 1 && kept[0].near(kept[len(kept)-1]) {
		kept = kept[:len(kept)-1]
	}
	return kept
}

// with adds a corner, unless it is the last one again but for rounding.
func (p polygon) with(corner point) polygon {
	if n := len(p); n > 0 && p[n-1].near(corner) {
		return p
	}
	return append(p, corner)
}

// near tells whether two points differ by rounding only: some thousand units in the last place.
func (a point) near(b point) bool {
	const rounding = 1e-13
	scale := math.Abs(a.x) + math.Abs(a.y)
	return math.Abs(a.x-b.x)+math.Abs(a.y-b.y) <= rounding*scale
}

// area returns the area inside, by the sum of the cross products of neighbouring corners.
func (p polygon) area() (sum float64) {
	for i, from := range p {
		to := p[(i+1)%len(p)]
		sum += from.x*to.y - from.y*to.x
	}
	return sum / 2
}

// largestProduct returns the point of p, which lies in the first quadrant, with the largest x·y. It is on
// an edge: along each the product is a parabola, whose top may lie between the corners.
func (p polygon) largestProduct() (x, y float64) {
	try := func(q point) {
		if q.x*q.y > x*y {
			x, y = q.x, q.y
		}
	}
	for i, from := range p {
		to := p[(i+1)%len(p)]
		try(from)
		dx, dy := to.x-from.x, to.y-from.y
		if along := -(from.x*dy + from.y*dx) / (2 * dx * dy); along > 0 && along < 1 { // never for a NaN
			try(point{from.x + along*dx, from.y + along*dy})
		}
	}
	return x, y
}
