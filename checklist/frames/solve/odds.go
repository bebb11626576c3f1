package solve

import (
	"math"
	"math/cmplx"
)

// What the odds are reckoned with; choices of ours.
const (
	seen       = 0.75 // probability that a star of the layer that falls on the chip is among the frame's
	stray      = 0.15 // part of those that lie three times as far off: stars that move, pairs
	mostOfView = 60   // stars of the layer that count in one frame
	perStar    = 2    // stars of the frame looked at for each of the layer
	fewestLook = 20   // and at least
)

// leastLogOdds is the natural logarithm of the odds from which a placement is believed: 10⁵ to one.
var leastLogOdds = math.Log(1e5)

// match is a star of the frame with one of the layer.
type match struct{ z, w complex128 }

// placed is a guess that was borne out.
type placed struct {
	guess
	patch   *patch
	logOdds float64
}

// judge refines a guess by all the stars that agree with it and tells whether the odds bear it out.
func (p *patch) judge(g guess, v view) (found placed, ok bool) {
	var refs []complex128
	for _, w := range p.stars {
		if z := g.back(w); v.holds(z, 0) {
			if refs = append(refs, w); len(refs) == mostOfView {
				break
			}
		}
	}
	looked := v.stars[:min(len(v.stars), max(fewestLook, perStar*len(refs)))]
	for range 3 {
		matches := matched(g, refs, looked, v.reach)
		if len(matches) < leastInView {
			return placed{}, false
		}
		g = fit(matches, g.mirrored).guess
	}
	if !p.within(g, v) {
		return placed{}, false
	}
	odds := logOdds(g, refs, looked, v)
	return placed{g, p, odds}, odds >= leastLogOdds
}

// matched returns the stars of the layer with the star of the frame that is nearest, within reach, rad. None of
// the frame's serves twice.
func matched(g guess, refs, stars []complex128, reach float64) []match {
	var matches []match
	taken := make([]bool, len(stars))
	limit := reach / cmplx.Abs(g.turn)
	for _, w := range refs {
		z := g.back(w)
		best, least := -1, limit*limit
		for i, s := range stars {
			d := s - z
			if square := real(d)*real(d) + imag(d)*imag(d); square < least && !taken[i] {
				best, least = i, square
			}
		}
		if best >= 0 {
			taken[best] = true
			matches = append(matches, match{stars[best], w})
		}
	}
	return matches
}

// logOdds returns the natural logarithm of the odds that a frame lies as a guess says, against chance.
//
// Own derivation. Let the frame have stars in a density ρ, and let chance be that the layer's stars fall on it
// anywhere. If the guess is right, each star of the layer that falls on the chip is seen with probability q, at an
// offset r of density f(r): a Gaussian of σ along each axis, but for a part that lies three times as far off. Of
// the star of the frame nearest to it chance has it there with density ρ, so that the star bears the guess out by
//
//	L = 1 − q + q·f(r)/ρ,
//
// 1 − q where there is none within reach, and the product of all is the likelihood over that of chance. No star
// of the frame counts twice. Chance has had many tries, though: as many as there are guesses that can be told
// apart within the prior. Two stars' errors over the n that agree make σ² 2π/n the area of one place of the
// middle; of one angle and one scale the breadth is √(2π)·σ/(R√n), R being how far the stars are from the
// middle, in the mean square; and there are two mirrors. With a prior of radius P, all angles, and scales within
// ±e, they number
//
//	V = 2 · πP²/(2πσ²/n) · 2π/(√(2π)σ/(R√n)) · 2e/(√(2π)σ/(R√n)),
//
// and the odds are ΠL/V: by Bayes's rule the probability that the guess is right over the probability that any
// of V is right by chance, a frame of which nothing else is known being as likely anywhere in the prior. What is
// asked, 10⁵ to one, bounds what is left out: that stars come in clusters, and lumps of nebula too.
func logOdds(g guess, refs, stars []complex128, v view) float64 {
	scale := cmplx.Abs(g.turn)
	density := float64(len(stars)) / (v.width * v.height * scale * scale) // per rad²
	taken := make([]bool, len(stars))
	sum, agreeing, far := 0.0, 0.0, 0.0
	for _, w := range refs {
		z := g.back(w)
		best, least := -1, math.Inf(1)
		for i, s := range stars {
			d := s - z
			if square := real(d)*real(d) + imag(d)*imag(d); square < least && !taken[i] {
				best, least = i, square
			}
		}
		f := 0.0
		if best >= 0 {
			f = spread(math.Sqrt(least)*scale, v.sigma)
		}
		if math.Sqrt(least)*scale <= v.reach {
			taken[best] = true
			agreeing++
			far += (real(z)*real(z) + imag(z)*imag(z)) * scale * scale
		}
		sum += math.Log(1 - seen + seen*f/density)
	}
	if agreeing < leastInView {
		return math.Inf(-1)
	}
	within := math.Max(float64(v.prior.Within), v.reach)
	breadth := math.Sqrt(2*math.Pi) * v.sigma / math.Sqrt(far) // R√n is √Σr²
	tries := 2 * within * within * agreeing / (2 * v.sigma * v.sigma) *
		math.Max(1, 2*math.Pi/breadth) * math.Max(1, 2*(v.prior.ScaleWithin+scaleSlack)/breadth)
	return sum - math.Log(math.Max(tries, 1))
}

// spread returns the density of an offset r, per rad².
func spread(r, sigma float64) float64 {
	gauss := func(s float64) float64 { return math.Exp(-r*r/(2*s*s)) / (2 * math.Pi * s * s) }
	return (1-stray)*gauss(sigma) + stray*gauss(3*sigma)
}
