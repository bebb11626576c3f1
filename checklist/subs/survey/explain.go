package survey

import (
	"fmt"
	"math"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/turning"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
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
		return fmt.Sprintf("the axis tilt by %.1f° toward azimuth %.0f° would explain it (the kit or the night has %.1f° toward %.0f°): sight two stars again",
			tilt.Axis.Tilt.Degrees(), wholeDegrees(tilt.Axis.Toward), course.Axis.Tilt.Degrees(), wholeDegrees(course.Axis.Toward))
	}
	x, y := float64(h.Width-1)/2, float64(h.Height-1)/2
	pivot, ok := turning.PivotOf(turned, x, y)
	if !ok || !pivot.Explains(x, y) {
		return ""
	}
	off := sky.Angle(pivot.Distance(x, y)*float64(max(1, h.BinX))) * perPixel(k)
	return fmt.Sprintf("it turns about a point %.1f° off the middle: the guide star, if the guide telescope looks there", off.Degrees())
}

// leastTilt is the smallest change of the axis worth naming. Our choice.
const leastTilt = 0.1 * sky.Degree

// wholeDegrees rounds an azimuth, in [0°, 360°).
func wholeDegrees(a sky.Angle) float64 { return math.Mod(math.Round(a.Wrapped().Degrees()), 360) }

func perPixel(k kit.Kit) sky.Angle { return sky.Angle(k.ScaleArcsecPerPixel()) * sky.Arcsecond }

// cornerOf returns how far the corner of a frame is from its middle, in its pixels.
func cornerOf(h subs.Header, k kit.Kit) float64 {
	width, height := h.Width, h.Height
	if width == 0 || height == 0 {
		width, height = k.Camera.Width, k.Camera.Height
	}
	return math.Hypot(float64(width), float64(height)) / 2
}
