package survey

import (
	"fmt"
	"math"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/turning"
	"duskhand/plan"
	"duskhand/plan/kit"
)

// explained says what would explain that the field creeps, "" if nothing is known that does.
func (s Survey) explained(course *plan.Course, f arrival.Frame) string {
	turned := s.run.judge.Turned()
	if tilt, err := turning.ExplainByTilt(course, turned, s.parity); err == nil && tilt.Explains {
		return fmt.Sprintf("an axis that leans by %.1f° toward azimuth %.0f° would explain it: read the derotator, or sight two stars",
			tilt.Axis.Tilt.Degrees(), tilt.Axis.Toward.Wrapped().Degrees())
	}
	x, y := float64(f.Header.Width-1)/2, float64(f.Header.Height-1)/2
	pivot, ok := turning.PivotOf(turned, x, y)
	if !ok || !pivot.Explains(x, y) {
		return ""
	}
	scale := s.kit.ScaleArcsecPerPixel() * float64(max(1, f.Header.BinX)) / 3600
	return fmt.Sprintf("it turns about a point %.1f° off the middle: the guide telescope looks elsewhere", pivot.Distance(x, y)*scale)
}

// cornerOf returns how far the corner of a frame is from its middle, in its pixels.
func cornerOf(h subs.Header, k kit.Kit) float64 {
	width, height := h.Width, h.Height
	if width == 0 || height == 0 {
		width, height = k.Camera.Width, k.Camera.Height
	}
	return math.Hypot(float64(width), float64(height)) / 2
}
