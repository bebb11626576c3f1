package guiding

import (
	"math"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// Check is an answer to the question whether a correction moved the star back: the poses of the calibration
// that was used and of the check.
type Check struct {
	Calibrated, Now Pose
	Yes             bool
}

// By how far a kind's corrections must miss for a star that came back to rule it out, and how well they must
// hit for one that did not. Between them lies what one may see either way.
const (
	cannotComeBack  = 100 * sky.Degree
	mustComeBack    = 30 * sky.Degree
	surelyComesBack = 80 * sky.Degree
)

// Kinds returns the kinds of mount that all the answers leave possible, in the order of the kit's help; ok is
// false when the answers contradict each other, and then all kinds come back.
//
// A yes rules out the kinds by which the correction would have gone off by more than 100°, a no those by which
// it would have been off by less than 30°. A changed scale turns a correction by up to asin(|1 − ρ|/(1 + ρ))
// more or less, depending on where the star stood: that counts for the kind. (Own derivation: the direction in
// which diag(ρ, 1) turns most makes that angle.)
func Kinds(checks []Check) (possible []kit.Corrections, ok bool) {
	for _, kind := range kit.AllCorrections() {
		out := false
		for _, c := range checks {
			out = out || c.rulesOut(kind)
		}
		if !out {
			possible = append(possible, kind)
		}
	}
	if len(possible) == 0 {
		return kit.AllCorrections(), false
	}
	return possible, true
}

func (c Check) rulesOut(kind kit.Corrections) bool {
	aged := Since(kind, c.Calibrated, c.Now)
	off, twist := aged.Angle.Abs(), sky.Angle(math.Asin(math.Abs(1-aged.Scale)/(1+aged.Scale)))
	if c.Yes {
		return off-twist > cannotComeBack
	}
	return off < mustComeBack && off+twist < surelyComesBack
}

// Parted tells whether a check now would rule out one of the possible kinds, whichever way it is answered:
// asking is worth the trouble.
func Parted(possible []kit.Corrections, calibrated, now Pose) bool {
	yes, no := Check{calibrated, now, true}, Check{calibrated, now, false}
	byYes, byNo := 0, 0
	for _, kind := range possible {
		if yes.rulesOut(kind) {
			byYes++
		}
		if no.rulesOut(kind) {
			byNo++
		}
	}
	return byYes > 0 && byNo > 0
}

// Worst returns the worst verdict over the kinds that are possible, the kind it is of and how the calibration
// has aged by it. A verdict is certain when there is one kind, or when the worst is Holds.
func Worst(possible []kit.Corrections, calibrated, now Pose, gain float64) (worst Verdict, of kit.Corrections, aged Aged) {
	aged = Fresh()
	for i, kind := range possible {
		here := Since(kind, calibrated, now)
		verdict := Judge(here, gain)
		if i == 0 || verdict > worst || verdict == worst && here.Radius(gain) > aged.Radius(gain) {
			worst, of, aged = verdict, kind, here
		}
	}
	return worst, of, aged
}

// Least returns the best verdict over the kinds that are possible: when even that is not Holds, the calibration
// has aged whichever kind of mount it is.
func Least(possible []kit.Corrections, calibrated, now Pose, gain float64) (least Verdict) {
	for i, kind := range possible {
		if verdict := Judge(Since(kind, calibrated, now), gain); i == 0 || verdict < least {
			least = verdict
		}
	}
	return least
}
