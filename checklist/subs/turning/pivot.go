package turning

import (
	"math"
	"math/cmplx"
)

// Pivot is the point about which the field turned: the guide star, when guiding held and nothing bent.
type Pivot struct {
	X, Y  float64 // in pixels of the reference light; it may lie far outside the frame
	Error float64 // one σ of each, pixels
	Share float64 // of the drift's variance at the middle of the frame that turning about it explains, 0 to 1
	Arm   float64 // one σ of each if the frame may have drifted evenly as well, pixels: +Inf where that can't be told apart
}

// Distance returns how far the pivot is from a place, pixels.
func (p Pivot) Distance(x, y float64) float64 { return math.Hypot(p.X-x, p.Y-y) }

// Explains tells whether the drift of the middle of the frame is that of a field turning about a point off it:
// a guide telescope that looks elsewhere. When the drift is not, something else moved: dithers, flexure, a
// guide star lost. An even drift looks like a turn about a point far off until the arc bends, so the point is
// believed only where it stands whether or not there is such a drift.
func (p Pivot) Explains(middleX, middleY float64) bool {
	return p.Share > 0.5 && p.Distance(middleX, middleY) > 5*p.Arm
}

// PivotOf finds the pivot from how a place, the middle of the frame, moved while the field turned. ok is false
// when the field turned too little for the dithers to average out: within 5 σ of not at all, or in fewer than
// four lights.
//
// Source: a turn by θ about c moves m by (e^{iθ} − 1)(m − c); a straight line through that, in complex numbers.
func PivotOf(turned []Turned, middleX, middleY float64) (p Pivot, ok bool) {
	var turns, moves, times []complex128
	for _, t := range turned {
		if t.Moved != nil {
			dx, dy := t.Moved.MovedAt(middleX, middleY)
			turns = append(turns, cmplx.Rect(1, float64(t.Moved.Rotation))-1)
			moves = append(moves, complex(dx, dy))
			times = append(times, complex(t.At.Sub(turned[0].At).Hours(), 0))
		}
	}
	n := float64(len(turns))
	if n < 4 {
		return Pivot{}, false
	}
	centre(turns)
	centre(moves)
	var cross complex128
	lever, all := 0.0, 0.0
	for i, g := range turns {
		cross += cmplx.Conj(g) * moves[i]
		lever += square(g)
		all += square(moves[i])
	}
	arm := cross / complex(lever, 0) // m − c
	rest := 0.0
	for i, g := range turns {
		rest += square(moves[i] - g*arm)
	}
	p = Pivot{X: middleX - real(arm), Y: middleY - imag(arm), Share: max(0, 1-rest/all)}
	p.Error = math.Sqrt(rest / (2 * (n - 2)) / lever)
	p.Arm = p.Error * besideDrift(turns, times)
	sigma := turned[len(turned)-1].Error
	return p, math.Sqrt(lever/n) > 5*float64(sigma)
}

// besideDrift returns by how much the error of the arm grows when an even drift is fitted beside it, +Inf where
// the two are one. Both lists are centred by it.
//
// Source: of a least-squares fit of two things, either is known by what the other leaves of it.
func besideDrift(turns, times []complex128) float64 {
	centre(times)
	var cross complex128
	all, clock := 0.0, 0.0
	for i, g := range turns {
		cross += cmplx.Conj(g) * times[i]
		all += square(g)
		clock += square(times[i])
	}
	if left := 1 - square(cross)/(all*clock); left > 0 {
		return 1 / math.Sqrt(left)
	}
	return math.Inf(1)
}

// centre takes their mean from numbers.
func centre(z []complex128) {
	var sum complex128
	for _, v := range z {
		sum += v
	}
	for i := range z {
		z[i] -= sum / complex(float64(len(z)), 0)
	}
}

func square(z complex128) float64 { return real(z)*real(z) + imag(z)*imag(z) }
