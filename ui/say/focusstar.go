package say

import (
	"fmt"

	"duskhand/plan"
)

// FocusStar says why a star suits the focus, in one sentence.
func FocusStar(s *plan.StarSky, f plan.Focus) string {
	from := whole(f.ToTarget) + " from the target"
	switch {
	case f.SecondOfPair:
		return "The second alignment star, so you are on it already; " + from + "."
	case f.Leaves.OK && f.Leaves.At.Sub(s.At) < soon:
		return fmt.Sprintf("%s, %s up; it %s in %s.", from, whole(f.Place.Altitude), leaving(f.Leaves.By, f.Leaves.Obstruction, s.FocusLimits()),
			inTime(f.Leaves.At.Sub(s.At)))
	}
	return fmt.Sprintf("%s, %s up.", from, whole(f.Place.Altitude))
}

// NoFocus says why there is no star to focus on; "" where there is one.
func NoFocus(s *plan.StarSky, n plan.NoFocus) string {
	switch n.Why {
	case plan.SomeFocus:
		return ""
	case plan.SunIsUp:
		return "No star shows while the Sun is up; wait for dusk."
	case plan.NoneForBoth:
		return "No star suits telescopes of so different apertures; choose a star for each of them."
	case plan.SkyBright:
		return fmt.Sprintf("The sky is still bright: stars to magnitude %.1f show, and none of them suits; wait for darker sky.", n.Shown)
	}
	return fmt.Sprintf("No star of magnitude %.1f to %.1f stands %s to %s up, clear, and stays so for %s; take one that is lower, or wait.",
		n.Brightest, n.Faintest, whole(n.Lowest), whole(n.Highest), inTime(s.Kit.Stars.StayFine))
}
