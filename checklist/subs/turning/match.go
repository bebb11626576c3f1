package turning

import (
	"cmp"
	"math"
	"slices"

	"duskhand/checklist/subs"
)

// Choices of ours, tried on simulated fields; the tests say how far they carry.
const (
	fewestMatched = 6    // stars: four unknowns leave eight numbers over
	brightest     = 60   // stars of each light that vote
	fixedWithin   = 0.25 // pixels: what moved less between lights may be of the chip and not of the sky
	coarsely      = 16.0 // pixels within which stars are paired at first
	finely        = 3.0  // and in the end, before the spread is known
	scaleWithin   = 0.01 // of 1: lights of one night, not refocused by more than that
	leastShare    = 0.25 // of the fainter list of voters that must match
)

// Match returns what carries the stars of light a onto those of light b: any shift and rotation, and a scale
// within a hundredth of 1.
//
// Stars that only one of them has, up to half, do no harm. Nor do hot pixels, which stay where they are on the
// chip: when the rest agree on a movement, that is the sky's.
// Error:  TooFew or NoMatch, in words for the operator.
// Source: pairs of equal length vote for the rotation, stars then for the shift; least squares after
// Umeyama 1991, IEEE PAMI 13(4), 376, in the plane, each star weighted by its centroid's error.
func Match(a, b []subs.Star) (Transform, error) {
	a, b = usable(a), usable(b)
	if len(a) < fewestMatched {
		return Transform{}, TooFew{Second: false, Stars: len(a)}
	}
	if len(b) < fewestMatched {
		return Transform{}, TooFew{Second: true, Stars: len(b)}
	}
	all := newLists(a, b)
	best := 0
	for _, voters := range []lists{all.withoutFixed(), all} {
		guess, agree := voters.first().guess()
		best = max(best, agree)
		if agree < voters.needed() {
			continue
		}
		fitted, ok := all.refine(guess)
		best = max(best, fitted.Matched)
		if ok && math.Abs(fitted.Scale-1) < scaleWithin {
			return fitted, nil
		}
	}
	return Transform{}, NoMatch{len(a), len(b), best}
}

// usable returns the sound stars, brightest first, without points much sharper than the rest: hot pixels and
// cosmic rays.
func usable(given []subs.Star) []subs.Star {
	var diameters []float64
	for _, s := range given {
		if s.HFD > 0 {
			diameters = append(diameters, s.HFD)
		}
	}
	sharpest := 0.0
	if len(diameters) > 0 {
		slices.Sort(diameters)
		sharpest = diameters[len(diameters)/2] / 2
	}
	var kept []subs.Star
	for _, s := range given {
		if sound(s) && (s.HFD <= 0 || s.HFD >= sharpest) {
			kept = append(kept, s)
		}
	}
	slices.SortStableFunc(kept, func(a, b subs.Star) int { return cmp.Compare(b.Flux, a.Flux) })
	return kept
}

// lists are the stars of two lights, brightest first.
type lists struct {
	a, b   []subs.Star
	area   float64 // that they stand on, pixels²
	extent float64 // its diagonal, pixels
}

func newLists(a, b []subs.Star) lists {
	l := lists{a: a, b: b}
	var low, high [2]float64
	low[0], low[1] = math.Inf(1), math.Inf(1)
	high[0], high[1] = math.Inf(-1), math.Inf(-1)
	for _, list := range [][]subs.Star{a, b} {
		for _, s := range list {
			low[0], low[1] = min(low[0], s.X), min(low[1], s.Y)
			high[0], high[1] = max(high[0], s.X), max(high[1], s.Y)
		}
	}
	l.area = max(1, (high[0]-low[0])*(high[1]-low[1]))
	l.extent = math.Hypot(high[0]-low[0], high[1]-low[1])
	return l
}

// withoutFixed returns the stars that have no counterpart in the very same place.
func (l lists) withoutFixed() lists {
	pairs := nearest(l.a, l.b, Still(), fixedWithin)
	fixedA, fixedB := map[int]bool{}, map[int]bool{}
	for _, p := range pairs {
		fixedA[p.a], fixedB[p.b] = true, true
	}
	rest := lists{area: l.area, extent: l.extent}
	for i, s := range l.a {
		if !fixedA[i] {
			rest.a = append(rest.a, s)
		}
	}
	for i, s := range l.b {
		if !fixedB[i] {
			rest.b = append(rest.b, s)
		}
	}
	return rest
}

// first returns the brightest of both.
func (l lists) first() lists {
	l.a, l.b = l.a[:min(brightest, len(l.a))], l.b[:min(brightest, len(l.b))]
	return l
}

// needed returns how many voters must agree: a share of them, and more than chance brings about in ten million
// places where one could look.
func (l lists) needed() int {
	v := l.first()
	chance := float64(len(v.a)*len(v.b)) * math.Pi * finely * finely / l.area
	n, term, above := 0, math.Exp(-chance), 1-math.Exp(-chance)
	for above > 1e-10 && n < brightest {
		n++
		term *= chance / float64(n)
		above -= term
	}
	share := int(leastShare * float64(min(len(v.a), len(v.b))))
	return max(fewestMatched, share, n+1)
}
