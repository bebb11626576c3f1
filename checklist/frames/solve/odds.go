package solve

import (
	"math"
	"math/cmplx"
	"slices"
)

// What the odds are reckoned with; choices of ours.
const (
	seen       = 0.75 // probability that a star of the layer that falls on the chip is among the frame's
	stray      = 0.15 // part of those that lie three times as far off: stars that move, pairs
	magSigma   = 0.5  // by which a magnitude differs from VT: colours and filters
	odd        = 0.2  // part of those that differ three times as much
	zeroRange  = 6.0  // magnitudes
	mostOfView = 60   // stars of the layer that count in one frame
	perStar    = 2    // stars of the frame looked at for each of the layer
	fewestLook = 20   // and at least
)

// leastLogOdds is the natural logarithm of the odds from which a placement is believed, 2000 to one. Chance is far
// rarer than the odds say, because most tries fail for more than one reason: of 600 artificial frames of 0.5° and
// 0.67° that looked elsewhere one came to odds of e⁻² to one, and none to evens.
var leastLogOdds = math.Log(2000)

// match is a star of the frame with one of the layer, by their numbers.
type match struct{ star, ref int }

// placed is a guess that was borne out.
type placed struct {
	guess
	patch   *patch
	logOdds float64
}

// judge refines a guess by all the stars that agree with it and tells whether the odds bear it out.
func (p *patch) judge(g guess, v view) (found placed, ok bool) {
	var refs []int
	for i, w := range p.stars {
		if v.holds(g.back(w), 0) {
			if refs = append(refs, i); len(refs) == mostOfView {
				break
			}
		}
	}
	looked := min(len(v.stars), max(fewestLook, perStar*len(refs)))
	var matches []match
	for range 3 {
		if matches = p.matched(g, refs, v.stars[:looked], v.reach); len(matches) < leastInView {
			return placed{}, false
		}
		g = fit(p.places(matches, v), g.mirrored).guess
	}
	if !p.within(g, v) {
		return placed{}, false
	}
	odds := p.logOdds(g, matches, len(refs), looked, v)
	return placed{g, p, odds}, odds >= leastLogOdds
}

// matched returns the stars of the layer with the star of the frame that is nearest, within reach, rad. None of
// the frame's serves twice.
func (p *patch) matched(g guess, refs []int, stars []complex128, reach float64) []match {
	var matches []match
	taken := make([]bool, len(stars))
	limit := reach / cmplx.Abs(g.turn)
	for _, ref := range refs {
		z := g.back(p.stars[ref])
		best, least := -1, limit*limit
		for i, s := range stars {
			d := s - z
			if square := real(d)*real(d) + imag(d)*imag(d); square < least && !taken[i] {
				best, least = i, square
			}
		}
		if best >= 0 {
			taken[best] = true
			matches = append(matches, match{best, ref})
		}
	}
	return matches
}

// places returns where matched stars are, on the frame and on the plane.
func (p *patch) places(matches []match, v view) []both {
	places := make([]both, len(matches))
	for i, m := range matches {
		places[i] = both{v.stars[m.star], p.stars[m.ref]}
	}
	return places
}

// logOdds returns the natural logarithm of the odds that a frame lies as a guess says, against chance: of stars of
// the layer that fall on the chip those are matched, and so many of the frame's stars were looked at.
//
// Own derivation. Let chance be that the layer's stars fall on the frame anywhere: then a star of the frame is at
// an offset r from one of them, and of a magnitude m, with the density ρ·h(m), where ρ is how many of the frame's
// there are in an area and h how their magnitudes are spread. If the guess is right, each star of the layer that
// falls on the chip is seen with probability q; its offset has the density f(r), a Gaussian of σ along each axis
// but for a part that lies three times as far off, and its magnitude the density g(m − M − m₀), where M is the
// layer's and m₀ the frame's zero: a Gaussian, but for a part that is of another colour, saturated or variable.
// So a star that is found bears the guess out by
//
//	L = 1 − q + q·f(r)·g(m − M − m₀)/(ρ·h(m)),
//
// one that is not by 1 − q, and the product of all is the likelihood over that of chance. No star of the frame
// counts twice. Chance has had many tries, though: as many as there are guesses that can be told apart within the
// prior. With n stars that agree, σ²·2π/n is the area of one place of the middle; of one angle and one scale the
// breadth is √(2π)·σ/(R√n), R being how far the stars are from the middle, in the mean square; of one zero it is
// √(2π)·s/√n with s the width of g, of a range that is taken for six magnitudes; and there are two mirrors. With a
// prior of radius P, all angles, and scales within ±e, they number
//
//	V = 2 · πP²/(2πσ²/n) · 2π/(√(2π)σ/(R√n)) · 2e/(√(2π)σ/(R√n)) · 6/(√(2π)s/√n),
//
// and the odds are ΠL/V: by Bayes's rule the probability that the guess is right over the probability that any
// of V is right by chance, a frame of which nothing else is known being as likely anywhere in the prior. What is
// asked, 2000 to one, bounds what is left out: that stars come in clusters, and lumps of nebula too.
func (p *patch) logOdds(g guess, matches []match, inView, looked int, v view) float64 {
	scale := cmplx.Abs(g.turn)
	area := v.width * v.height * scale * scale
	zero := p.zero(matches, v)
	sum, far := float64(inView-len(matches))*math.Log(1-seen), 0.0
	for _, m := range matches {
		z := v.stars[m.star]
		r := cmplx.Abs(z-g.back(p.stars[m.ref])) * scale
		chance := around(v.mags[:looked], m.star) / area
		right := spread(r, v.sigma) * likeness(v.mags[m.star]-p.mags[m.ref]-zero)
		sum += math.Log(1 - seen + seen*right/chance)
		far += (real(z)*real(z) + imag(z)*imag(z)) * scale * scale
	}
	n := float64(len(matches))
	within := math.Max(float64(v.prior.Within), v.reach)
	breadth := math.Sqrt(2*math.Pi) * v.sigma / math.Sqrt(far) // R√n is √Σr²
	tries := within * within * n / (v.sigma * v.sigma) *
		math.Max(1, 2*math.Pi/breadth) * math.Max(1, 2*(v.prior.ScaleWithin+scaleSlack)/breadth) *
		math.Max(1, zeroRange/(math.Sqrt(2*math.Pi/n)*magSigma))
	return sum - math.Log(math.Max(tries, 1))
}

// zero returns the median by which the frame's magnitudes differ from the layer's.
func (p *patch) zero(matches []match, v view) float64 {
	var differ []float64
	for _, m := range matches {
		differ = append(differ, v.mags[m.star]-p.mags[m.ref])
	}
	slices.Sort(differ)
	return (differ[(len(differ)-1)/2] + differ[len(differ)/2]) / 2
}

// around returns how many stars a magnitude there are about one of a frame, itself among them.
func around(mags []float64, star int) float64 {
	const half = 0.5
	n := 0
	for _, m := range mags {
		if math.Abs(m-mags[star]) <= half {
			n++
		}
	}
	return float64(n) / (2 * half)
}

// spread returns the density of an offset r, per rad².
func spread(r, sigma float64) float64 {
	gauss := func(s float64) float64 { return math.Exp(-r*r/(2*s*s)) / (2 * math.Pi * s * s) }
	return (1-stray)*gauss(sigma) + stray*gauss(3*sigma)
}

// likeness returns the density of a magnitude's difference from what the layer has, per magnitude.
func likeness(differ float64) float64 {
	gauss := func(s float64) float64 { return math.Exp(-differ*differ/(2*s*s)) / (math.Sqrt(2*math.Pi) * s) }
	return (1-odd)*gauss(magSigma) + odd*gauss(3*magSigma)
}
