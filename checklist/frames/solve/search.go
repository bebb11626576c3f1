package solve

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"
)

// guess is a similarity from the frame's pixels to a patch's plane: turn·z + middle, of z's mirror image when
// mirrored.
type guess struct {
	turn, middle complex128
	mirrored     bool
}

func (g guess) at(z complex128) complex128 {
	if g.mirrored {
		z = cmplx.Conj(z)
	}
	return g.turn*z + g.middle
}

// back returns the pixel that falls on a place.
func (g guess) back(w complex128) complex128 {
	z := (w - g.middle) / g.turn
	if g.mirrored {
		z = cmplx.Conj(z)
	}
	return z
}

// How many of the frame's stars are laid on the layer's; choices of ours.
const (
	brightest  = 24 // stars of which pairs are taken, and which have to agree
	leastAgree = 2  // beside the pair
	soon       = 6  // of the others, among which one has to agree
)

// search lays pairs of the frame's stars on pairs of the patch's until the odds bear one out.
func (p *patch) search(v view, pairs int) (found placed, ok bool) {
	bright := v.bright
	mirror := make([]complex128, len(bright))
	for i, z := range bright {
		mirror[i] = cmplx.Conj(z)
	}
	for n, of := range pairsOf(bright, leastApart*v.diagonal()) {
		if n >= pairs {
			break
		}
		apart := cmplx.Abs(bright[of.a]-bright[of.b]) * v.perPixel
		slack := v.prior.ScaleWithin + scaleSlack
		first, last := int(apart*(1-slack)/p.width), int(apart*(1+slack)/p.width)
		for bin := first; bin <= min(last, len(p.bins)-1); bin++ {
			for _, on := range p.bins[bin] {
				a, b := p.stars[on.a], p.stars[on.b]
				for _, g := range [4]guess{
					lay(bright, of, a, b, false), lay(bright, of, b, a, false),
					lay(mirror, of, a, b, true), lay(mirror, of, b, a, true),
				} {
					stars := bright
					if g.mirrored {
						stars = mirror
					}
					if !p.reaches(g, v) || !p.agrees(g, stars, of) || !p.within(g, v) {
						continue
					}
					if found, ok := p.judge(g, v); ok {
						return found, true
					}
				}
			}
		}
	}
	return placed{}, false
}

// A frame's stars to lay come from all over it: so many at most from each of its parts, in columns and rows.
// Otherwise a nebula's lumps would be all of them. Our choice.
const mostOfPart, columns, rows = 3, 4, 3

// spreadOut returns the brightest star of each part of the frame, then the second of each, and so on, each round in
// the order of brightness.
func (v view) spreadOut() []complex128 {
	var rounds [mostOfPart][]complex128
	var from [columns * rows]int
	for _, z := range v.stars {
		x := int((real(z)/v.width + 0.5) * columns)
		y := int((imag(z)/v.height + 0.5) * rows)
		part := &from[min(max(y, 0), rows-1)*columns+min(max(x, 0), columns-1)]
		if *part < mostOfPart {
			rounds[*part] = append(rounds[*part], z)
			*part++
		}
	}
	all := slices.Concat(rounds[:]...)
	return all[:min(len(all), brightest)]
}

// pairsOf returns pairs of stars at least so far apart, those of the brightest first.
func pairsOf(stars []complex128, least float64) []pair {
	var pairs []pair
	for a := range stars {
		for b := range a {
			if cmplx.Abs(stars[a]-stars[b]) >= least {
				pairs = append(pairs, pair{int32(b), int32(a)})
			}
		}
	}
	slices.SortStableFunc(pairs, func(p, q pair) int { return cmp.Compare(p.a+p.b, q.a+q.b) })
	return pairs
}

// lay returns the guess that lays a pair of stars, mirrored already where it is, on two places.
func lay(stars []complex128, of pair, a, b complex128, mirrored bool) guess {
	turn := (b - a) / (stars[of.b] - stars[of.a])
	return guess{turn: turn, middle: a - turn*stars[of.a], mirrored: mirrored}
}

// agrees tells whether enough other stars of the frame fall near stars of the layer.
func (p *patch) agrees(g guess, stars []complex128, of pair) bool {
	hits, looked := 0, 0
	for i, z := range stars {
		if int32(i) == of.a || int32(i) == of.b {
			continue
		}
		if p.grid.near(g.turn*z + g.middle) {
			if hits++; hits == leastAgree {
				return true
			}
		}
		if looked++; looked == soon && hits == 0 {
			return false
		}
	}
	return false
}

// reaches tells whether a guess has the chip's middle in the patch: quick, and most have not.
func (p *patch) reaches(g guess, v view) bool {
	far := 1.05*p.reach + v.reach
	return real(g.middle)*real(g.middle)+imag(g.middle)*imag(g.middle) <= far*far
}

// within tells whether a guess keeps to the prior.
func (p *patch) within(g guess, v view) bool {
	scale := cmplx.Abs(g.turn) / v.perPixel
	return math.Abs(scale-1) <= v.prior.ScaleWithin+scaleSlack && p.reaches(g, v)
}
