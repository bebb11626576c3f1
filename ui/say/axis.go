package say

import (
	"fmt"
	"time"

	"duskhand/checklist"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// Learned says what sights or readings tell of the mount's axis, or why they tell nothing.
func Learned(l facts.Learned, zone *time.Location) string {
	switch {
	case l.First:
		return "One star is noted; the second gives the axis."
	case l.Taken != nil:
		return Suspicion(*l.Taken)
	case l.Doubt != nil:
		return fmt.Sprintf("the reading of %s is far from what the others say; read it again, or undo it", words.Minute(*l.Doubt, zone))
	case l.Failed != nil:
		return l.Failed.Error()
	case l.By == checklist.ByReadings:
		return fmt.Sprintf("axis from %d readings", l.From)
	}
	return fmt.Sprintf("axis from %d stars, residual %s", l.From, words.Arcminutes(l.RMS, 1))
}

// AxisChanged says which axis is known now, and what that does to the limit's bounds.
func AxisChanged(c facts.AxisChange) string {
	said := "The axis: " + axis(c.Axis)
	if c.How != "" {
		said += ", by " + c.How
	}
	if c.Both {
		said += fmt.Sprintf("; the limit's bounds are %s apart, %s before", words.ToSecond(c.Apart), words.ToSecond(c.Before))
	}
	return said
}

func axis(a kit.Axis) string {
	return fmt.Sprintf("tilt %s toward azimuth %s ± %s", words.Degrees(a.Tilt, 2), words.Direction(a.Toward, 0), words.Degrees(a.Uncertainty, 2))
}

// ReadingOff says that a reading lies so far from what was computed.
func ReadingOff(off sky.Angle) string {
	return fmt.Sprintf("The reading is %s from what was computed: read it again, or undo it, unless the stage was moved", words.Degrees(off.Abs(), 1))
}
