package turning

import (
	"math"
	"math/cmplx"
	"slices"

	"duskhand/checklist/subs"
	"duskhand/sky"
)

// centroidFloor is what a centroid is never better than, pixels: seeing and the pixels themselves.
const centroidFloor = 0.04

// saturatedOff is how far off the centroid of a star may be whose top is cut off, pixels. Our choice.
const saturatedOff = 0.3

// variance returns how uncertain the distance of two matched centroids is, per axis, pixels²; only the ratios
// matter, for the fit itself says how large they are. Stars without stated noise count alike.
func variance(a, b subs.Star) float64 {
	v := centroidFloor * centroidFloor
	for _, s := range []subs.Star{a, b} {
		if s.Noise > 0 && s.HFD > 0 {
			off := 0.6 * s.HFD * s.Noise / s.Flux // σ of a Gaussian is 0.42 HFD; an aperture's noise weighs its rim more
			v += off * off
		}
		if s.Saturated {
			v += saturatedOff * saturatedOff
		}
	}
	return v
}

// fit returns the least-squares similarity of matched stars, with errors that the scatter about it shows.
//
// Source: Umeyama 1991, IEEE PAMI 13(4), eq. 40 to 42, which in the plane is one quotient of complex numbers.
// The errors are the heteroscedasticity-consistent ones of MacKinnon & White 1985, J. Econometrics 29, 305
// (HC3, on the safe side): right even where the weights are not.
func fit(a, b []subs.Star, pairs []matched) Transform {
	weights := make([]float64, len(pairs))
	var total float64
	var middleA, middleB complex128
	for i, p := range pairs {
		w := 1 / variance(a[p.a], b[p.b])
		weights[i] = w
		total += w
		middleA += complex(w, 0) * place(a[p.a])
		middleB += complex(w, 0) * place(b[p.b])
	}
	middleA, middleB = middleA/complex(total, 0), middleB/complex(total, 0)
	var cross complex128
	var lever float64 // Σ w r²
	for i, p := range pairs {
		from, to := place(a[p.a])-middleA, place(b[p.b])-middleB
		cross += complex(weights[i], 0) * cmplx.Conj(from) * to
		lever += weights[i] * (real(from)*real(from) + imag(from)*imag(from))
	}
	t := Transform{
		Rotation: sky.Angle(cmplx.Phase(cross)), Scale: cmplx.Abs(cross) / lever,
		MiddleX: real(middleA), MiddleY: imag(middleA),
		ShiftX: real(middleB - middleA), ShiftY: imag(middleB - middleA), Matched: len(pairs),
	}
	t.errors(a, b, pairs, weights, total, lever)
	return t
}

// errors fills in what the scatter says.
func (t *Transform) errors(a, b []subs.Star, pairs []matched, weights []float64, total, lever float64) {
	unturn := cmplx.Rect(1, -float64(t.Rotation))
	var square, turning, moving float64
	for i, p := range pairs {
		from := place(a[p.a]) - complex(t.MiddleX, t.MiddleY)
		x, y := t.Apply(a[p.a].X, a[p.a].Y)
		off := place(b[p.b]) - complex(x, y)
		square += real(off)*real(off) + imag(off)*imag(off)
		w, r2 := weights[i], real(from)*real(from)+imag(from)*imag(from)
		free := max(0.05, 1-w/total-w*r2/lever) // the share of its scatter that the fit leaves to this star
		across := imag(off * unturn * cmplx.Conj(from))
		turning += w * w * across * across / (free * free)
		moving += w * w * (real(off)*real(off) + imag(off)*imag(off)) / (2 * free * free)
	}
	t.RMS = math.Sqrt(square / float64(max(1, len(pairs))))
	t.RotationError = sky.Angle(math.Sqrt(turning) / (t.Scale * lever))
	t.ShiftError = math.Sqrt(moving) / total
}

func place(s subs.Star) complex128 { return complex(s.X, s.Y) }

// refine fits all stars of both lights from a guess on, those pairs thrown out that are out of
// proportion to the rest. ok is false when too few remain.
func (l lists) refine(t Transform) (refined Transform, ok bool) {
	for range 6 {
		pairs := nearest(l.a, l.b, t, finely)
		if len(pairs) < fewestMatched {
			return t, false
		}
		spread := l.spread(pairs, t)
		kept := l.honest(pairs, t, spread)
		if len(kept) < fewestMatched {
			return t, false
		}
		t = fit(l.a, l.b, kept)
	}
	return t, true
}

// rejectBeyond is how many σ an honest star may be off: in two dimensions one in 25,000 is further. What
// stayed in place is thrown out sooner. Our choice.
const rejectBeyond, rejectFixedBeyond = 4.5, 3.0

// spread returns by how much the stars' stated errors have to be multiplied to be those that the pairs show, by
// their median.
func (l lists) spread(pairs []matched, t Transform) float64 {
	offs := make([]float64, len(pairs))
	for i, p := range pairs {
		offs[i] = l.off(p, t)
	}
	slices.Sort(offs)
	const medianOfRayleigh = 1.1774 // √(2 ln 2)
	return max(offs[len(offs)/2]/medianOfRayleigh, 1e-6)
}

// honest returns the pairs that the fit explains, and that staying in place does not explain better: hot pixels
// that move nearly as little as the stars about them would hold back the rotation.
func (l lists) honest(pairs []matched, t Transform, spread float64) []matched {
	var kept []matched
	for _, p := range pairs {
		limit := rejectBeyond * spread
		if math.Hypot(l.b[p.b].X-l.a[p.a].X, l.b[p.b].Y-l.a[p.a].Y) < fixedWithin {
			limit = rejectFixedBeyond * spread
		}
		if l.off(p, t) <= limit {
			kept = append(kept, p)
		}
	}
	return kept
}

// off returns how far a pair is apart, in its stated errors.
func (l lists) off(p matched, t Transform) float64 {
	x, y := t.Apply(l.a[p.a].X, l.a[p.a].Y)
	return math.Hypot(l.b[p.b].X-x, l.b[p.b].Y-y) / math.Sqrt(variance(l.a[p.a], l.b[p.b]))
}
