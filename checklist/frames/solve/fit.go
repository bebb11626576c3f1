package solve

import (
	"math"
	"math/cmplx"
	"slices"

	"duskhand/plan/framing"
	"duskhand/sky"
)

// both is where a star is on the frame and where on a plane.
type both struct{ z, w complex128 }

// fitted is a guess by least squares, with its errors.
type fitted struct {
	guess
	rms         float64 // along each axis, rad
	angleError  float64 // rad
	middleError float64 // of the chip's middle, along each axis, rad
}

// fit returns the similarity of matched stars by least squares, all weighing alike.
//
// Source: Umeyama 1991, IEEE PAMI 13(4), eq. 40 to 42, which in the plane is one quotient of complex numbers. The
// errors are those of the scatter about it, of which four numbers have been fitted.
func fit(matches []both, mirrored bool) fitted {
	n := float64(len(matches))
	var z0, w0 complex128
	at := func(m both) complex128 {
		if mirrored {
			return cmplx.Conj(m.z)
		}
		return m.z
	}
	for _, m := range matches {
		z0, w0 = z0+at(m)/complex(n, 0), w0+m.w/complex(n, 0)
	}
	var cross complex128
	lever := 0.0
	for _, m := range matches {
		z := at(m) - z0
		cross += cmplx.Conj(z) * (m.w - w0)
		lever += real(z)*real(z) + imag(z)*imag(z)
	}
	f := fitted{guess: guess{turn: cross / complex(lever, 0), mirrored: mirrored}}
	f.middle = w0 - f.turn*z0
	square := 0.0
	for _, m := range matches {
		off := m.w - f.at(m.z)
		square += real(off)*real(off) + imag(off)*imag(off)
	}
	f.rms = math.Sqrt(square / math.Max(1, 2*n-4))
	f.angleError = f.rms / (math.Sqrt(lever) * cmplx.Abs(f.turn))
	f.middleError = f.rms * math.Sqrt(1/n+(real(z0)*real(z0)+imag(z0)*imag(z0))/lever)
	return f
}

// The scatter of few stars may be small by luck, so that as much is believed beside it as of so many numbers of half
// the size that is expected. Our choice.
const (
	expectedShare = 0.5
	expectedCount = 3.0
)

// scatter returns the scatter along each axis that the errors are reckoned with, rad.
func (f fitted) scatter(matched int, expected float64) float64 {
	free, expected := float64(2*matched-4), expectedShare*expected
	return math.Sqrt((free*f.rms*f.rms + expectedCount*expected*expected) / (free + expectedCount))
}

// placement fits all stars of the frame to all of the layer's, on the tangent plane of the chip's own middle.
func (p placed) placement(v view, layer Layer) Placement {
	g, plane := p.guess, p.patch.plane
	var last fitted
	matches := 0
	var zeros []float64
	reach := v.reach
	for range 4 {
		centre := plane.Sky(pointOf(g.middle))
		before := plane
		plane = framing.NewTangentPlane(centre)
		g = g.moved(before, plane, v)
		near := newStars(plane, layer(centre, sky.Angle(v.radius()+v.reach)))
		var refs []int
		for i, w := range near.stars {
			if v.holds(g.back(w), 0) {
				refs = append(refs, i)
			}
		}
		if more := near.matched(g, refs, v.stars, reach); len(more) >= leastInView {
			matches = len(more)
			last = fit(near.places(more, v), g.mirrored)
			g, zeros = last.guess, near.zeros(more, v)
			reach = min(reach, max(reachSigmas*last.rms, v.sigma))
		}
	}
	centre := plane.Sky(pointOf(g.middle))
	up := g.at(1i) - g.middle
	worse := last.scatter(matches, v.sigma) / max(last.rms, 1e-12) // four stars may agree to the last digit
	return Placement{
		Centre: centre, CentreError: sky.Angle(worse * last.middleError),
		CameraAngle: sky.Angle(math.Atan2(-real(up), imag(up))).Wrapped(), AngleError: sky.Angle(worse * last.angleError),
		PerPixel: sky.Angle(cmplx.Abs(g.turn)), Mirrored: g.mirrored, Matched: matches, RMS: sky.Angle(last.rms), LogOdds: p.logOdds,
		Zero: middle(zeros), ZeroStars: len(zeros),
	}
}

// zeros returns what the matched stars that are not saturated say of the magnitude of a flux of 1.
func (p *patch) zeros(matches []match, v view) (zeros []float64) {
	for _, m := range matches {
		if !v.full[m.star] {
			zeros = append(zeros, p.mags[m.ref]-v.mags[m.star])
		}
	}
	return zeros
}

// middle returns the median, 0 of none.
func middle(values []float64) float64 {
	slices.Sort(values)
	if n := len(values); n > 0 {
		return (values[(n-1)/2] + values[n/2]) / 2
	}
	return 0
}

// moved returns a guess on another plane, by where three of the chip's points fall.
func (g guess) moved(from, to framing.TangentPlane, v view) guess {
	var matches []both
	for _, z := range []complex128{0, complex(v.width/4, 0), complex(-v.width/4, 0), complex(0, v.height/4), complex(0, -v.height/4)} {
		w := g.at(z)
		at, ok := to.Project(from.Sky(pointOf(w)))
		if ok {
			matches = append(matches, both{z, placeOf(at)})
		}
	}
	return fit(matches, g.mirrored).guess
}
