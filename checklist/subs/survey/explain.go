package survey

import (
	"math"

	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/turning"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// explained is what would explain that the field creeps, nil if nothing is known that alone does: while the parity is
// unknown one axis explains it as well as another.
func explained(judge turning.Judge, parity turning.Parity, course *plan.Course, h subs.Header, k kit.Kit) *checklist.ExplainedBody {
	if step, ok := judge.Last().Step(); ok {
		return &checklist.ExplainedBody{By: checklist.ExplainedByStep, StepDeg: step.Abs().Degrees()}
	}
	if parity == turning.UnknownParity {
		return nil
	}
	turned := judge.Turned()
	if tilt, err := turning.ExplainByTilt(course, turned, parity); err == nil && tilt.Explains && tilt.Unique && tilt.Change >= leastTilt {
		return &checklist.ExplainedBody{By: checklist.ExplainedByTilt, TiltDeg: tilt.Axis.Tilt.Degrees(), TowardDeg: tilt.Axis.Toward.Degrees(),
			KnownTiltDeg: course.Axis.Tilt.Degrees(), KnownTowardDeg: course.Axis.Toward.Degrees()}
	}
	x, y := float64(h.Width-1)/2, float64(h.Height-1)/2
	pivot, ok := turning.PivotOf(turned, x, y)
	if !ok || !pivot.Explains(x, y) {
		return nil
	}
	off := sky.Angle(pivot.Distance(x, y)*float64(max(1, h.BinX))) * perPixel(k)
	return &checklist.ExplainedBody{By: checklist.ExplainedByPivot, OffDeg: off.Degrees()}
}

// leastTilt is the smallest change of the axis worth naming. Our choice.
const leastTilt = 0.1 * sky.Degree

func perPixel(k kit.Kit) sky.Angle { return sky.Angle(k.ScaleArcsecPerPixel()) * sky.Arcsecond }

// cornerOf returns how far the corner of a frame is from its middle, in its pixels.
func cornerOf(h subs.Header, k kit.Kit) float64 {
	width, height := h.Width, h.Height
	if width == 0 || height == 0 {
		width, height = k.Camera.Width, k.Camera.Height
	}
	return math.Hypot(float64(width), float64(height)) / 2
}

// AtOnce tells that what a light says is a turn at one go, between it and the light before.
func AtOnce(b checklist.TurningBody) bool {
	return b.Explained != nil && b.Explained.By == checklist.ExplainedByStep
}
