package turning

import (
	"math"
	"time"

	"duskhand/checklist/subs"
	"duskhand/sky"
)

// Light is a light of a run as the Judge needs it.
type Light struct {
	Start      time.Time
	Exposure   time.Duration
	FieldAngle sky.Angle // χ at the middle of the exposure, unwrapped, for the axis as known
	Compared   Compared
}

// Middle returns the middle of the exposure, to which centroids belong.
func (l Light) Middle() time.Time { return l.Start.Add(l.Exposure / 2) }

// Compared is how a light's stars lie against those of the lights before.
type Compared struct {
	Fresh         bool       // it is itself what later lights are compared with: angles begin anew
	FromReference *Transform // nil when they don't match
	FromPrevious  *Transform // from the last light that could be compared; nil when they don't match
	Err           error      // why there is neither
}

// Series compares the lights of one run in order. The zero value is ready; a rewind begins a new one.
type Series struct {
	reference, previous []subs.Star
	refused             int // lights since the last that matched
}

// newReferenceAfter is after how many lights in a row that match nothing before them the series begins anew: the
// target was changed, or framed anew. Our choice.
const newReferenceAfter = 3

// Next compares a light's stars with those of the lights before and returns the series with it. The stars are
// kept, not copied.
func (s Series) Next(stars []subs.Star) (Series, Compared) {
	if s.reference == nil {
		if n := len(usable(stars)); n < fewestMatched {
			return s, Compared{Err: TooFew{Second: true, Stars: n}}
		}
		return Series{reference: stars, previous: stars}, Compared{Fresh: true}
	}
	var c Compared
	if t, err := Match(s.previous, stars); err == nil {
		c.FromPrevious = &t
	} else {
		c.Err = err
	}
	if t, err := Match(s.reference, stars); err == nil {
		c.FromReference = &t
	}
	if c.FromPrevious == nil && c.FromReference == nil {
		s.refused++
		if s.refused >= newReferenceAfter && len(usable(stars)) >= 2*fewestMatched {
			return Series{reference: stars, previous: stars}, Compared{Fresh: true}
		}
		return s, c
	}
	c.Err = nil
	s.previous, s.refused = stars, 0
	return s, c
}

// point is a light that could be compared.
type point struct {
	at       time.Time
	exposure time.Duration
	chi      sky.Angle
	camera   sky.Angle  // the camera's angle since the reference, unwrapped
	sigma    sky.Angle  // of camera
	moved    *Transform // from the reference; nil when only the light before could be compared

	// since the point before
	step      sky.Angle
	stepSigma sky.Angle
	field     sky.Angle // by which the field turned
	elapsed   time.Duration
}

// pointAfter returns the point of a light that follows another; ok is false when it can't be compared with it.
func pointAfter(before point, l Light, parity Parity, jitter sky.Angle) (p point, ok bool) {
	p = point{at: l.Middle(), exposure: l.Exposure, chi: l.FieldAngle, moved: l.Compared.FromReference}
	p.field, p.elapsed = p.chi-before.chi, p.at.Sub(before.at)
	ref, prev := l.Compared.FromReference, l.Compared.FromPrevious
	switch {
	case p.elapsed <= 0 || ref == nil && prev == nil:
		return point{}, false
	case ref != nil:
		turned := parity.CameraTurned(*ref)
		p.camera = before.camera + (turned - before.camera).Signed()
		p.sigma = hypot(ref.RotationError, jitter)
	default:
		p.camera = before.camera + parity.CameraTurned(*prev)
		p.sigma = hypot(before.sigma, prev.RotationError)
	}
	p.step, p.stepSigma = p.camera-before.camera, hypot(p.sigma, before.sigma)
	if prev != nil { // the errors of the lights between drop out
		p.step, p.stepSigma = parity.CameraTurned(*prev), hypot(prev.RotationError, math.Sqrt2*jitter)
	}
	return p, true
}

func hypot(a, b sky.Angle) sky.Angle { return sky.Angle(math.Hypot(float64(a), float64(b))) }

// rate returns how fast the camera turned since the point before.
func (p point) rate() sky.Rate { return sky.Rate(float64(p.step) / p.elapsed.Seconds()) }

// trailAt returns the trail at the corner that an angle since the point before makes in the exposure, pixels.
func (p point) trailAt(l Limits, angle sky.Angle) float64 {
	return l.trail(angle) * p.exposure.Seconds() / p.elapsed.Seconds()
}
