// Package solve tells where a frame looks: it lays the stars that were measured on it onto the catalogue's, within
// a prior of where it should look and how large a pixel is. Angle and mirror need not be known.
//
// Pairs of the frame's brightest stars are laid on pairs of the layer's that are as far apart; what other stars of
// the frame then fall on stars as well is placed by all of them and judged by odds (odds.go). Nothing is placed
// that odds do not bear out, and what is not placed says why.
package solve

import (
	"math"
	"slices"
	"sync"

	"duskhand/checklist/subs"
	"duskhand/sky"
	"duskhand/sky/catalog/deep"
)

// Frame is a light's stars, brightest first, in the pixel coordinates of package subs.
type Frame struct {
	Stars         []subs.Star
	Width, Height int
}

// Prior is what is known before: the middle of the chip looks within a radius of a place, and a pixel of the
// frame, binned as it is, is so large to within a share of it.
type Prior struct {
	Near        sky.J2000
	Within      sky.Angle
	PerPixel    sky.Angle
	ScaleWithin float64
}

// Layer returns the stars within a radius of a place, brightest first: deep.All.
type Layer func(centre sky.J2000, radius sky.Angle) []deep.Star

// Placement is where a frame looks.
//
// Frame: J2000; proper motions are left out, and average out over the stars.
type Placement struct {
	Centre      sky.J2000 // of the chip's middle
	CentreError sky.Angle // one σ along each axis
	CameraAngle sky.Angle // position angle of growing row number at the middle, north through east, [0°, 360°)
	AngleError  sky.Angle // one σ
	PerPixel    sky.Angle // at the middle
	Mirrored    bool      // with the first row lowest the picture is the sky as a mirror shows it
	Matched     int       // stars
	RMS         sky.Angle // of the matched stars about the fit, along each axis
	LogOdds     float64   // natural logarithm, that it looks there against chance
	Zero        float64   // magnitude, VT, of a star whose flux is 1 in the frame: the median of the matched stars that are not saturated
	ZeroStars   int       // of which there are so many
}

// The steps in which the prior's circle is searched; choices of ours.
const (
	nearRadius  = 1.6 * sky.Degree // the first patch: a target that was gone to
	nearPairs   = 150              // of the frame's stars that are tried there
	farPairs    = 30               // and elsewhere, where the brightest stars have to do
	scaleSlack  = 0.002            // by which distortion changes the distance of two stars
	atOnce      = 4                // patches that are searched at one time
	leastInView = 4                // stars that a placement has at least
)

// Solve returns where a frame looks. Its error is a *Refusal.
//
// Range:  fields from 0.3° to some 6°, scales known to 10 %; a prior of up to 15°.
// Error:  AngleError, CentreError; a wrong placement less than once in 2000 frames that look elsewhere, by the odds; in trials none of 2400.
func Solve(f Frame, prior Prior, layer Layer) (Placement, error) {
	v := newView(f, prior)
	if len(v.stars) < leastInView {
		return Placement{}, &Refusal{Kind: FewInFrame, Stars: len(v.stars)}
	}
	middles := patches(prior.Near, prior.Within, v.patchRadius())
	first := newPatch(middles[0], v, layer)
	if found, ok := first.search(v, nearPairs); ok {
		return found.placement(v, layer), nil
	}
	for some := range slices.Chunk(middles[1:], atOnce) {
		if found, ok := searchAll(some, v, layer); ok {
			return found.placement(v, layer), nil
		}
	}
	inView := first.inView(v)
	if inView < leastInView+1 {
		return Placement{}, &Refusal{Kind: FewInLayer, Stars: inView}
	}
	return Placement{}, &Refusal{Kind: NowhereNear, Stars: len(f.Stars), Within: prior.Within}
}

// searchAll searches patches at one time, and returns what the first of them that has something has: how many
// work makes no difference.
func searchAll(middles []sky.J2000, v view, layer Layer) (placed, bool) {
	found, ok := make([]placed, len(middles)), make([]bool, len(middles))
	var all sync.WaitGroup
	for i, centre := range middles {
		all.Go(func() { found[i], ok[i] = newPatch(centre, v, layer).search(v, farPairs) })
	}
	all.Wait()
	if i := slices.Index(ok, true); i >= 0 {
		return found[i], true
	}
	return placed{}, false
}

// view is a frame as the search needs it.
type view struct {
	prior         Prior
	stars         []complex128 // from the chip's middle, pixels, brightest first
	bright        []complex128 // those that are laid on the layer's
	mags          []float64    // of their light, from a zero of its own
	full          []bool       // whether they are saturated
	width, height float64      // pixels
	perPixel      float64      // rad
	sigma         float64      // of a star's place against the layer's, rad
	reach         float64      // within which a star is found by a guess from two, rad
}

// The errors of places; choices of ours. Proper motions since J2000 and the layer's own errors come to half a
// second of arc for most stars (Høg et al. 2000 and 26 years of some 15 mas).
const (
	pixelSigma   = 0.4    // pixels: centroids, seeing, stars that are two
	layerSigma   = 0.5    // ″
	bendSigma    = 0.0002 // of the frame's diagonal: distortion that a similarity leaves
	reachSigmas  = 3.0
	mostMeasured = 400 // stars of a frame that are looked at
	bleeds       = 1.5 // times the elongation of the others that a full star has which runs over: its middle is elsewhere
)

func newView(f Frame, prior Prior) view {
	v := view{prior: prior, width: float64(f.Width), height: float64(f.Height), perPixel: float64(prior.PerPixel)}
	longest := bleeds * f.elongation()
	for _, s := range f.Stars[:min(len(f.Stars), mostMeasured)] {
		if s.Flux > 0 && !(s.Saturated && s.Elongation > longest) {
			v.stars = append(v.stars, complex(s.X-(v.width-1)/2, s.Y-(v.height-1)/2))
			v.mags = append(v.mags, -2.5*math.Log10(s.Flux))
			v.full = append(v.full, s.Saturated)
		}
	}
	v.sigma = math.Hypot(math.Hypot(pixelSigma, bendSigma*v.diagonal())*v.perPixel, layerSigma*float64(sky.Arcsecond))
	v.reach = reachSigmas * v.sigma
	v.bright = v.spreadOut()
	return v
}

// elongation returns the median of the stars that are not saturated, at least 1.
func (f Frame) elongation() float64 {
	var all []float64
	for _, s := range f.Stars {
		if !s.Saturated {
			all = append(all, s.Elongation)
		}
	}
	return max(1, middle(all))
}

func (v view) diagonal() float64 { return math.Hypot(v.width, v.height) }

// radius returns how far a corner is from the middle, rad, at the largest scale.
func (v view) radius() float64 { return v.diagonal() / 2 * v.perPixel * (1 + v.prior.ScaleWithin) }

func (v view) patchRadius() sky.Angle { return min(nearRadius, max(v.prior.Within, 0)) }

// holds tells whether a place is on the chip, with a margin in pixels.
func (v view) holds(z complex128, margin float64) bool {
	return math.Abs(real(z)) <= v.width/2-margin && math.Abs(imag(z)) <= v.height/2-margin
}
