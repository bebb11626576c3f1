package framing

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// waitStep is how finely a later start is tried while a run is not worth while.
const waitStep = 2 * time.Minute

// CoincidingRuns plans the night from an instant on so that all frames cover the same sky: every run has the
// camera angle wanted (of date) or one that differs by a multiple of alike. Where no reading within the
// travel gives one it waits: with less travel than alike for most of the night, and the sum of exposures
// says what that costs. A nil wanted takes the angle of the longest first run.
//
// at is where the derotator stands, nil when nobody knows. A stage that stops only at its ends reaches few
// angles, and most often none.
func CoincidingRuns(c *plan.Course, from time.Time, at *sky.Angle, wanted *sky.Angle, alike sky.Angle, sequence plan.Sequence) plan.Schedule {
	if wanted == nil {
		wanted = angleOfTheFirst(c, from)
	}
	if wanted == nil {
		return plan.Schedule{Windows: c.Windows(), After: sequence}
	}
	rule := plan.AngleRule{Keep: kit.AlwaysKeep, Wanted: *wanted, Alike: alike}
	return c.WithRule(rule).Schedule(plan.Start{At: from, Stage: at}, sequence)
}

// angleOfTheFirst returns the camera angle of the longest run from the first usable instant on, nil if there
// is none.
func angleOfTheFirst(c *plan.Course, from time.Time) *sky.Angle {
	for _, window := range c.Windows() {
		if start := later(from, window.From); start.Before(window.To) {
			angle := c.CameraAngle(c.PlannedRun(start, window.To).Start, start)
			return &angle
		}
	}
	return nil
}
