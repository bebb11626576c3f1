package survey

import (
	"fmt"
	"math"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/turning"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
)

// explained says what would explain that the field creeps, "" if nothing is known that alone does: while the
// parity is unknown one axis explains it as well as another.
func explained(judge turning.Judge, parity turning.Parity, course *plan.Course, h subs.Header, k kit.Kit) string {
	if step, ok := judge.Last().Step(); ok {
		return stepWords(step)
	}
	if parity == turning.UnknownParity {
		return ""
	}
	turned := judge.Turned()
	if tilt, err := turning.ExplainByTilt(course, turned, parity); err == nil && tilt.Explains && tilt.Unique && tilt.Change >= leastTilt {
		return fmt.Sprintf("the axis tilt by %s toward azimuth %s would explain it (the kit or the night has %s toward %s): sight two stars again",
			words.Degrees(tilt.Axis.Tilt, 1), words.Direction(tilt.Axis.Toward, 0), words.Degrees(course.Axis.Tilt, 1), words.Direction(course.Axis.Toward, 0))
	}
	x, y := float64(h.Width-1)/2, float64(h.Height-1)/2
	pivot, ok := turning.PivotOf(turned, x, y)
	if !ok || !pivot.Explains(x, y) {
		return ""
	}
	off := sky.Angle(pivot.Distance(x, y)*float64(max(1, h.BinX))) * perPixel(k)
	return fmt.Sprintf("it turns about a point %s off the middle: the guide star, if the guide telescope looks there", words.Degrees(off, 1))
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
