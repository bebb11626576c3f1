package turning

import (
	"errors"
	"math"
	"math/cmplx"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Turned is by how much the camera has turned at the middle of a light, since the reference.
type Turned struct {
	At     time.Time
	Camera sky.Angle  // unwrapped; positive through east when the parity is known
	Error  sky.Angle  // one σ
	Moved  *Transform // from the reference; nil when only the light before could be compared
}

// Turned returns the angles of the run's lights that could be compared, in order.
func (j Judge) Turned() []Turned {
	turned := make([]Turned, len(j.points))
	for i, p := range j.points {
		turned[i] = Turned{p.at, p.camera, p.sigma, p.moved}
	}
	return turned
}

// Tilt is the mount's axis that would explain a slow turning: the derotator turned as for the axis of the
// course, and this one is where the mount really turned about.
type Tilt struct {
	Axis     kit.Axis
	Change   sky.Angle // from the course's axis
	RMS      sky.Angle // of the camera's angles about what that axis would do
	Explains bool      // RMS is within the angles' errors, and Change no more than 10°
	Parity   Parity    // that it was found with; the one of the smaller change when it was not known
}

// The bounds of a tilt that explains; choices of ours.
const (
	mostTiltChange = 10 * sky.Degree
	unknownTilt    = 3 * sky.Degree // of an axis that is said to be known exactly
	mostTiltPoints = 40
)

// ExplainByTilt returns the smallest change of the mount's axis that explains how the camera turned during a
// run, by least squares. Two parts of a tilt need a run long enough for χ to bend; until then the smaller one is
// a lower bound. It takes three lights.
//
// Source: the readings that a derotator would have given that followed the true axis, s·(χ + what the camera
// turned), fitted as readings are; the project's handbook, section 5.
func ExplainByTilt(c *plan.Course, turned []Turned, parity Parity) (Tilt, error) {
	if len(turned) < 3 {
		return Tilt{}, errors.New("the tilt takes three lights of one run that can be compared; go on exposing")
	}
	if parity != UnknownParity {
		return tiltFor(c, turned, parity, 1)
	}
	direct, err := tiltFor(c, turned, Direct, 1)
	if err != nil {
		return Tilt{}, err
	}
	flipped, err := tiltFor(c, turned, Flipped, -1)
	if err != nil {
		return Tilt{}, err
	}
	if flipped.Explains && (!direct.Explains || flipped.Change < direct.Change) {
		return flipped, nil
	}
	return direct, nil
}

func tiltFor(c *plan.Course, turned []Turned, parity Parity, sign sky.Angle) (Tilt, error) {
	course := *c
	if course.Axis.Uncertainty <= 0 {
		course.Axis.Uncertainty = unknownTilt
	}
	every := (len(turned) + mostTiltPoints - 1) / mostTiltPoints
	var readings []plan.Anchor
	var square float64
	for i := len(turned) - 1; i >= 0; i -= every {
		angle := c.FieldAngle(turned[i].At) + sign*turned[i].Camera
		readings = append(readings, plan.Anchor{At: turned[i].At, Angle: sky.Angle(c.Kit.Derotator.Sense) * angle})
		square += float64(turned[i].Error * turned[i].Error)
	}
	sigma := sky.Angle(math.Sqrt(square / float64(len(readings))))
	fit, err := course.FitTilt(readings, sigma)
	if err != nil {
		return Tilt{}, err
	}
	was, is := sky.MountAxis(c.Axis.Tilt, c.Axis.Toward), sky.MountAxis(fit.Axis.Tilt, fit.Axis.Toward)
	t := Tilt{Axis: fit.Axis, Change: was.Separation(is), RMS: fit.RMS, Parity: parity}
	t.Explains = t.RMS <= 2*sigma && len(fit.Doubtful) == 0 && t.Change <= mostTiltChange
	return t, nil
}

// Pivot is the point about which the field turned: the guide star, when guiding held and nothing bent.
type Pivot struct {
	X, Y  float64 // in pixels of the reference light; it may lie far outside the frame
	Error float64 // one σ of each, pixels
	Share float64 // of the drift's variance at the middle of the frame that turning about it explains, 0 to 1
}

// Distance returns how far the pivot is from a place, pixels.
func (p Pivot) Distance(x, y float64) float64 { return math.Hypot(p.X-x, p.Y-y) }

// Explains tells whether the drift of the middle of the frame is that of a field turning about a point off it:
// a guide telescope that looks elsewhere. When the drift is not, something else moved: dithers, flexure, a
// guide star lost.
func (p Pivot) Explains(middleX, middleY float64) bool {
	return p.Share > 0.5 && p.Distance(middleX, middleY) > 5*p.Error
}

// PivotOf finds the pivot from how a place, the middle of the frame, moved while the field turned. ok is false
// when the field turned too little for the dithers to average out: within 5 σ of not at all, or in fewer than
// four lights.
//
// Source: a turn by θ about c moves m by (e^{iθ} − 1)(m − c); a straight line through that, in complex numbers.
func PivotOf(turned []Turned, middleX, middleY float64) (p Pivot, ok bool) {
	var turns, moves []complex128
	for _, t := range turned {
		if t.Moved != nil {
			dx, dy := t.Moved.MovedAt(middleX, middleY)
			turns = append(turns, cmplx.Rect(1, float64(t.Moved.Rotation))-1)
			moves = append(moves, complex(dx, dy))
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
	sigma := turned[len(turned)-1].Error
	return p, math.Sqrt(lever/n) > 5*float64(sigma)
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
