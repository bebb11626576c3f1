package exposure

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/sky"
)

// trailAllowed is the trail of a corner star that still passes for round, in pixels: our choice.
const trailAllowed = 1.0

// LongestSub is what bounds a sub whose shutter opens at an instant.
type LongestSub struct {
	// Run is what fits before the run must end, its overhead counted; 0 when nothing does. ByLimit tells that
	// the derotator's limit ends it, by the early bound and with the kit's margin; otherwise the bound given.
	Run     time.Duration
	ByLimit bool
	// Still is how long a sub may be if the derotator stood still, before a star in the corner trails by a
	// pixel; not OK when it never does before the bound.
	Still Figure[time.Duration]
}

// Longest returns what bounds a sub that begins at the start of span: the end of the run and of span. reading
// is where the derotator stands then, nil if nobody knows: then the longest run that any reading gives counts.
// A settling time after a rewind lies before span.
func Longest(c *plan.Course, span plan.Span, reading *sky.Angle) LongestSub {
	anchor := plan.Anchor{At: span.From}
	if reading != nil {
		anchor.Angle = *reading
	} else {
		anchor.Angle = c.PlannedRun(span.From, span.To).Start
	}
	by := c.LastSubBy(c.Limit(anchor, span.To), span.To)
	longest := LongestSub{Run: max(0, by.Sub(span.From)-c.Kit.Subs.Overhead), ByLimit: by.Before(span.To)}
	corner := framing.MainSensor(c.Kit).CornerPixels()
	if still, ok := framing.LongestSubStill(c, span, corner, trailAllowed); ok {
		longest.Still = Figure[time.Duration]{Value: still, OK: true}
	}
	return longest
}
