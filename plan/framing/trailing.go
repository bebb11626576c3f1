package framing

import (
	"math"
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// LongestSubAtRate returns how long a sub may be at a constant rate of the field, or at the residual rate of a
// derotator, before a star so many pixels from the centre trails by allowedPixels; ok is false when it never
// does.
func LongestSubAtRate(rate sky.Rate, pixels, allowedPixels float64) (sub time.Duration, ok bool) {
	seconds := allowedPixels / (math.Abs(float64(rate)) * pixels)
	if longest := float64(math.MaxInt64) / float64(time.Second); !(seconds < longest) {
		return 0, false
	}
	return time.Duration(seconds * float64(time.Second)), true
}

// LongestSubStill returns how long a sub from an instant may be without any derotation before a star so many
// pixels from the centre trails by allowedPixels. The rate may change and the field turn back meanwhile: what
// counts is the whole swing of χ. ok is false when the trail is not reached before until.
func LongestSubStill(c *plan.Course, span plan.Span, pixels, allowedPixels float64) (sub time.Duration, ok bool) {
	allowed := sky.Angle(allowedPixels / pixels)
	low, high := c.FieldAngle(span.From), c.FieldAngle(span.From)
	swing := func(t time.Time) sky.Angle {
		chi := c.FieldAngle(t)
		return max(high, chi) - min(low, chi)
	}
	before := span.From
	for _, turn := range append(c.Reversals(span), span.To) { // χ is monotonic from each to the next
		if swing(turn) > allowed {
			end := sky.Root(func(t time.Time) sky.Angle { return swing(t) - allowed }, before, turn)
			return end.Sub(span.From), true
		}
		chi := c.FieldAngle(turn)
		low, high, before = min(low, chi), max(high, chi), turn
	}
	return 0, false
}

// GuideShift returns by how much the whole field moves, perfectly guided, while it turns by an angle about a
// guide star that stands at a distance from the centre of the main chip: what a guide telescope off by that
// much costs.
// Source: the project's handbook, section 5, r·D; as the chord, which is the same for small turns.
func GuideShift(turned, distance sky.Angle) sky.Angle {
	return 2 * sky.Angle(math.Abs(math.Sin(float64(turned)/2))) * distance
}

// GuideShiftPixels is GuideShift in pixels of a sensor.
func GuideShiftPixels(s Sensor, turned, distance sky.Angle) float64 {
	return float64(GuideShift(turned, distance) / s.PerPixel)
}
