package stage

import (
	"math"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// ReadingError is how finely a derotator's angle is read off its scale or screen, one σ. Common practice.
const ReadingError = 0.1 * sky.Degree

// Fit is what the night's lights and readings say together, and what of it is worth going by.
type Fit struct {
	plan.JointFit
	Lights, Readings int
	Axis             *checklist.MeasureAxis // how the axis is known better than it was; nil if it is not by much
	Zero             *checklist.MeasureZero // nil while it is not known well, or no news
}

// The bounds of what is worth going by. ZeroKnown is from which σ on the camera's angle at reading 0 is believed: by
// one reading it is wrong by 1.4 times the tilt's error. The others are our choice.
const (
	ZeroKnown   = 0.2 * sky.Degree
	muchBetter  = 0.8 // of the error that there was
	mostMisfit  = 9.0 // beyond it something is not as was said
	zeroNewsMin = 3.0 // σ
)

// FitNight fits a night. It goes out from the axis as stars, a level or the kit have it, and judges by the axis as
// it is gone by now. ok is false while there is no light that tells, or when what was said can't all be true.
func FitNight(n checklist.Night, k kit.Kit, courses []*plan.Course, present *plan.Course) (fit Fit, ok bool) {
	spans := Spans(n, courses, present)
	for _, s := range spans {
		fit.Lights, fit.Readings = fit.Lights+len(s.Cameras), fit.Readings+len(s.Readings)
	}
	if fit.Lights == 0 {
		return Fit{}, false
	}
	prior := plan.JointPrior{Axis: k.Axis, Zero: k.Camera.AngleAtZero}
	if a := n.AxisBefore; a != nil {
		prior.Axis, prior.Spread = kit.Axis{Tilt: a.Tilt, Toward: a.Toward, Uncertainty: a.Uncertainty}, a.Spread
	}
	var err error
	if fit.JointFit, err = plan.FitJoint(prior, spans, ReadingError); err != nil || fit.Misfit > mostMisfit {
		return fit, false
	}
	fit.Axis, fit.Zero = fit.axis(n, k), fit.zero(n, k)
	return fit, true
}

func (f Fit) axis(n checklist.Night, k kit.Kit) *checklist.MeasureAxis {
	now := plan.SpreadOf(k.Axis.Uncertainty)
	if a := n.Axis; a != nil {
		if now = plan.SpreadOf(a.Uncertainty); a.Spread != nil {
			now = *a.Spread
		}
	}
	if n.FitRefused || float64(f.Spread.RMS()) > muchBetter*float64(now.RMS()) {
		return nil
	}
	spread, axis := f.Spread, f.JointFit.Axis
	return &checklist.MeasureAxis{Tilt: axis.Tilt, Toward: axis.Toward, Uncertainty: axis.Uncertainty, Spread: &spread, By: checklist.ByFrames}
}

func (f Fit) zero(n checklist.Night, k kit.Kit) *checklist.MeasureZero {
	if f.ZeroError >= ZeroKnown {
		return nil
	}
	now, within := k.Camera.AngleAtZero, f.ZeroError
	if n.Zero != nil {
		now, within = n.Zero.Angle, n.Zero.Error
		if float64(f.ZeroError) > muchBetter*float64(within) {
			return nil
		}
	}
	off := (f.JointFit.Zero - now).Signed().Abs()
	if n.Zero == nil && float64(off) < zeroNewsMin*math.Max(float64(within), float64(f.ZeroError)) {
		return nil
	}
	return &checklist.MeasureZero{Angle: f.JointFit.Zero, Error: f.ZeroError}
}
