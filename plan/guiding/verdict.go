package guiding

import (
	"time"

	"duskhand/sky"
)

// Verdict is what there is to say of guiding by a calibration.
type Verdict int

// The verdicts, the worst last.
const (
	Holds    Verdict = iota // guide on
	Again                   // calibrate again: it converges, weakly
	Diverges                // it drives the star away
)

// String names the verdict as programs read it.
func (v Verdict) String() string { return [...]string{"holds", "calibrate-again", "diverges"}[v] }

// Judge returns what a calibration so aged is good for when the share gain of the error is corrected each
// time: with the scale unchanged it holds up to half of LateBound.
//
// A changed scale makes guiding weak as an angle does, too strong on one axis or too slow. So it holds only
// while the angle is below half of the bound for that scale, and the error dies away as fast as it does at
// half of the bound with the scale unchanged. (Own choice; noise makes guiding weak long before it diverges.)
func Judge(a Aged, gain float64) Verdict {
	radius := a.Radius(gain)
	switch {
	case radius >= 1:
		return Diverges
	case a.Angle.Abs() >= LateBound(gain, a.Scale)/2, radius >= weak(gain):
		return Again
	}
	return Holds
}

// weak is the spectral radius at half of the bound with the scale unchanged.
func weak(gain float64) float64 {
	return Aged{Angle: LateBound(gain, 1) / 2, Scale: 1}.Radius(gain)
}

// lookEvery is how often a run is looked at: in it the stage turns a degree or two where it turns fast.
const lookEvery = time.Minute

// HoldsUntil returns when the verdict first ceases to be Holds between two instants, for a calibration whose
// age at an instant is aged; not OK if it holds throughout, from itself if it does not hold there.
//
// Error: 1 s, but for a lapse of less than a minute, which is not seen.
func HoldsUntil(aged func(time.Time) Aged, gain float64, from, to time.Time) sky.Event {
	holds := func(t time.Time) bool { return Judge(aged(t), gain) == Holds }
	if !holds(from) {
		return sky.Event{At: from, OK: true}
	}
	for before := from; before.Before(to); {
		next := before.Add(lookEvery)
		if next.After(to) {
			next = to
		}
		if !holds(next) {
			return sky.Event{At: firstNot(holds, before, next), OK: true}
		}
		before = next
	}
	return sky.Event{}
}

// firstNot halves the stretch from one instant at which something holds to one at which it does not.
func firstNot(holds func(time.Time) bool, from, to time.Time) time.Time {
	for to.Sub(from) > time.Second/2 {
		if middle := from.Add(to.Sub(from) / 2); holds(middle) {
			from = middle
		} else {
			to = middle
		}
	}
	return to
}
