package solve

import (
	"math"

	"duskhand/plan/framing"
	"duskhand/sky"
	"duskhand/sky/catalog/deep"
)

// patch is the layer around a place, on its tangent plane as the eye sees it: the real axis points west, the
// imaginary one north; rad.
type patch struct {
	plane framing.TangentPlane
	stars []complex128 // brightest first
	mags  []float64    // VT of them
	tried int          // of the brightest, on pairs of which the frame's are laid
	grid  grid
	bins  [][]pair // of tried stars by distance
	width float64  // of a bin, rad
	reach float64  // of the frame's middle from the patch's
}

type pair struct{ a, b int32 }

// inField is how many of the layer's stars a field is to have among those that are tried: about as many as the
// frame's brightest. Our choice.
const inField = 30

// newPatch returns the layer as far as a frame reaches whose middle is within the patch.
func newPatch(centre sky.J2000, v view, layer Layer) *patch {
	reach := float64(v.patchRadius())
	radius := reach + v.radius()
	p := newStars(framing.NewTangentPlane(centre), layer(centre, sky.Angle(radius)))
	p.reach = reach
	field := v.width * v.height * v.perPixel * v.perPixel
	p.tried = min(len(p.stars), int(inField*math.Pi*radius*radius/field))
	p.grid = newGrid(p.stars[:p.tried], radius, v.reach)
	p.sortPairs(v)
	return p
}

// newStars returns a patch of which nothing is sorted.
func newStars(plane framing.TangentPlane, stars []deep.Star) *patch {
	p := &patch{plane: plane}
	for _, s := range stars {
		if z, ok := onPlane(p.plane, s); ok {
			p.stars, p.mags = append(p.stars, z), append(p.mags, s.Magnitude)
		}
	}
	return p
}

func onPlane(plane framing.TangentPlane, s deep.Star) (z complex128, ok bool) {
	at, ok := plane.Project(s.Place)
	return placeOf(at), ok
}

// placeOf and pointOf turn a point of a plane, of which east is a number that grows, into the place that has it on
// the left, and back.
func placeOf(p framing.PlanePoint) complex128 { return complex(-float64(p.East), float64(p.North)) }
func pointOf(z complex128) framing.PlanePoint {
	return framing.PlanePoint{East: sky.Angle(-real(z)), North: sky.Angle(imag(z))}
}

// leastApart is how far apart the two stars of a pair are at least, in diagonals: closer ones turn the rest by
// their own errors. Our choice.
const leastApart = 0.2

// sortPairs bins the pairs that two of the frame's stars can be.
func (p *patch) sortPairs(v view) {
	const bins = 400
	longest := v.diagonal() * v.perPixel * (1 + v.prior.ScaleWithin + scaleSlack)
	shortest := leastApart * v.diagonal() * v.perPixel * (1 - v.prior.ScaleWithin - scaleSlack)
	p.bins, p.width = make([][]pair, bins+1), longest/bins
	for a := range p.tried {
		for b := range a {
			d := p.stars[a] - p.stars[b]
			square := real(d)*real(d) + imag(d)*imag(d)
			if square < shortest*shortest || square > longest*longest {
				continue
			}
			bin := int(math.Sqrt(square) / p.width)
			p.bins[bin] = append(p.bins[bin], pair{int32(a), int32(b)})
		}
	}
}

// inView returns how many of the layer's stars a frame in the middle of the patch has.
func (p *patch) inView(v view) int {
	n := 0
	area := v.width * v.height * v.perPixel * v.perPixel
	for _, z := range p.stars {
		if math.Pi*(real(z)*real(z)+imag(z)*imag(z)) < area {
			n++
		}
	}
	return n
}

// grid tells quickly whether a star may be within reach of a place.
type grid struct {
	cells []uint64 // a bit each
	side  int
	half  float64 // rad
	per   float64 // cells a rad
}

// finest is how many cells a grid has along a side at most: it is to stay in the processor's cache. Our choice.
const finest = 1400

func newGrid(stars []complex128, radius, reach float64) grid {
	g := grid{half: radius + 2*reach}
	g.per = min(1/reach, finest/(2*g.half))
	g.side = int(2*g.half*g.per) + 3
	g.cells = make([]uint64, g.side*g.side/64+1)
	for _, z := range stars {
		x, y := int((real(z)+g.half)*g.per), int((imag(z)+g.half)*g.per)
		for cy := max(y-1, 0); cy <= min(y+1, g.side-1); cy++ {
			for cx := max(x-1, 0); cx <= min(x+1, g.side-1); cx++ {
				at := cy*g.side + cx
				g.cells[at>>6] |= 1 << (at & 63)
			}
		}
	}
	return g
}

func (g *grid) near(z complex128) bool {
	x, y := int((real(z)+g.half)*g.per), int((imag(z)+g.half)*g.per)
	if uint(x) >= uint(g.side) || uint(y) >= uint(g.side) {
		return false
	}
	at := y*g.side + x
	return g.cells[at>>6]>>(at&63)&1 == 1
}
