package turning

import (
	"time"

	"duskhand/sky"
)

// Kind is what the lights say about the derotator.
type Kind string

// The kinds. Steady: it tracks, or what is left does no harm. Off: the field turns as the mount's does; the
// derotator stands still. Reversed: twice that; it turns the wrong way. Residual: the field turns at some other
// rate. CannotTell: the lights can be compared, but not yet tell. Unknown: this light can't be compared.
const (
	Steady     Kind = "steady"
	Off        Kind = "off"
	Reversed   Kind = "reversed"
	Residual   Kind = "residual"
	CannotTell Kind = "cannot tell"
	Unknown    Kind = "unknown"
)

// Bad tells whether the field turns.
func (k Kind) Bad() bool { return k == Off || k == Reversed || k == Residual }

// Verdict is what is known after one light.
type Verdict struct {
	Kind  Kind
	Alarm bool // the second bad light in a row or a later one; it stands until a light is Steady

	// The camera's turning over a stretch of Lights: at most a dozen, and since the turning began when Kind is
	// bad. Positive through east when the parity is known, else as if it were Direct.
	Rate      sky.Rate
	RateError sky.Rate // one σ
	Predicted sky.Rate // of the field over the same stretch: what Rate is when the derotator is off
	From, To  time.Time
	Lights    int

	Parity Parity // as known, or as a derotator that is Off or Reversed shows it
	Why    Reason // of CannotTell, and of Unknown where Err is nil
	Err    error  // of Unknown: why the light can't be compared

	stepped bool
}

// Reason is why the lights do not tell.
type Reason string

// The reasons. FewLights: the field turns enough for a derotator that stands still to be seen, and the rate is not yet
// known well enough. SlowField: the field itself hardly turns.
const (
	FirstLight Reason = "first light" // has none to be compared with
	NotLater   Reason = "not later"   // than the light before
	FewLights  Reason = "few lights"
	SlowField  Reason = "slow field"
)

// Step returns by how much the camera turned at one go between two lights, with the sign of Rate: those of From and
// To, the last two or, where only the light after them told, the two before it. ok is false when it did not.
func (v Verdict) Step() (turned sky.Angle, ok bool) {
	return v.Rate.Times(v.To.Sub(v.From)), v.stepped
}

// Share returns Rate in parts of Predicted: 0 tracked, 1 off, 2 reversed, its sign that of the parity as known.
// ok is false when the field hardly turns.
func (v Verdict) Share() (share float64, ok bool) {
	if v.Predicted == 0 {
		return 0, false
	}
	return float64(v.Rate / v.Predicted), true
}

// Limits is from where on turning counts.
type Limits struct {
	CornerPixels float64   // from the centre of rotation to the furthest corner
	TrailPixels  float64   // at that corner in one exposure, from which it does harm
	Sigmas       float64   // of its error that a turning must exceed
	Jitter       sky.Angle // one σ by which an honest stage and the air turn the field from light to light
}

// DefaultLimits are a pixel at the corner, 5 σ, and a jitter of 0.002°: a twelfth of a pixel at 2000 pixels.
// Our choice.
func DefaultLimits(cornerPixels float64) Limits {
	return Limits{CornerPixels: cornerPixels, TrailPixels: 1, Sigmas: 5, Jitter: 0.002 * sky.Degree}
}

// trail returns how long the trail of a turning is at the corner, pixels.
func (l Limits) trail(turned sky.Angle) float64 {
	return float64(turned.Abs()) * l.CornerPixels
}
