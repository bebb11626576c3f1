package say

import (
	"fmt"

	"duskhand/plan"
	"duskhand/sky"
	"duskhand/sky/words"
)

// Suspicion says in a sentence or two what is wrong with sights and what would be right; "" where nothing is.
func Suspicion(s plan.Suspicion) string {
	if len(s.Names) == 0 {
		return ""
	}
	wrong := fmt.Sprintf("The sights do not fit together: the stars' separation is out by %s.", words.Degrees(s.Fit.Misfit, 1))
	if s.Fit.Misfit < 1*sky.Degree {
		wrong = fmt.Sprintf("The sights fit only a mount that leans by %s.", words.Degrees(s.Fit.Axis.Tilt, 0))
		if s.Fit.Axis.Tilt <= plan.LargestTilt {
			wrong = fmt.Sprintf("The sights do not fit together: the stars' separation is out by %s.", words.Arcminutes(s.Fit.Misfit, 0))
		}
	}
	switch {
	case len(s.Suspects) == 0 && s.Sight < 0:
		return wrong + " No bright star explains it; check the readouts and the time, or sight a third star."
	case len(s.Suspects) == 0:
		return wrong + fmt.Sprintf(" Leave out %s and the others agree; centre that star again, it may have been a planet.", s.Names[s.Sight])
	case len(s.Names) == 2:
		return wrong + fmt.Sprintf(" Perhaps %s, or a readout was mistyped: look at both numbers again, or sight a third star, which will tell.",
			mistaken(s, s.Suspects[0]))
	case s.Clear:
		return wrong + fmt.Sprintf(" Probably %s. Centre the right star, or name the one you took.", mistaken(s, s.Suspects[0]))
	}
	return wrong + fmt.Sprintf(" Perhaps %s, or %s. A third star will tell.", mistaken(s, s.Suspects[0]), mistaken(s, s.Suspects[1]))
}

func mistaken(s plan.Suspicion, suspect plan.Suspect) string {
	if suspect.Other != suspect.Sight {
		return fmt.Sprintf("%s and %s were exchanged", s.Names[suspect.Sight], s.Names[suspect.Other])
	}
	return fmt.Sprintf("%s was taken for %s", suspect.Taken.Name(), s.Names[suspect.Sight])
}
