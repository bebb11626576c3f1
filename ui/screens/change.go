package screens

import (
	"fmt"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/ui/facts"
)

// ChangeWords names the star that has taken the place of the second that was chosen, and why.
func ChangeWords(c facts.Change) string {
	why := "that was not found"
	if !c.Missed {
		switch c.Leaving.By {
		case plan.TooHigh:
			why = "that stands too high now"
		case plan.Obstructed:
			why = "that is behind the skyline now"
		default:
			why = "that stands too low now"
		}
	}
	if c.Now == "" {
		return fmt.Sprintf("No second star in the place of %s: %s.", c.Was, why)
	}
	return fmt.Sprintf("%s in the place of %s: %s.", c.Now, c.Was, why)
}

// ChangedPair says of the step to do that its star is another than the one chosen before; "" if it is not.
func (s Status) ChangedPair(step checklist.StepState) string {
	if s.Stars.Change == nil || step.Settled() || !step.Names("star_2") {
		return ""
	}
	return ChangeWords(*s.Stars.Change)
}
