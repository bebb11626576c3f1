package say

import (
	"fmt"
	"strings"
	"time"

	"duskhand/plan"
	"duskhand/sky"
	"duskhand/sky/words"
)

// Unfit says why a star will not do, as the end of a sentence that names it.
func Unfit(r plan.Rejected) string {
	switch r.Unfit {
	case plan.NearSun:
		return fmt.Sprintf("is %s from the Sun, which is up: never point there", whole(r.Apart))
	case plan.Down:
		return "is below the horizon"
	case plan.TooFaint:
		if r.Sun >= sky.SunAtHorizon {
			return "does not show while the Sun is up"
		}
		return fmt.Sprintf("is too faint while the Sun is only %s down", whole(-r.Sun))
	case plan.NearMoon:
		return fmt.Sprintf("is drowned by the Moon, %s away", whole(r.Apart))
	case plan.NotKnown:
		return "is not among the stars that your mount knows (stars.known)"
	case plan.Confusable:
		return fmt.Sprintf("could be taken for %s, %s away", r.Alike, nearby(r.Apart))
	}
	if r.In > 0 {
		return leaving(r.Unfit, r.Obstruction, r.Limits) + " in " + inTime(r.In)
	}
	switch r.Unfit {
	case plan.TooLow:
		return fmt.Sprintf("is too low, %s up about the mount's axis, %s wanted", whole(max(0, r.AboutAxis)), whole(r.Limits.Lower()))
	case plan.TooHigh:
		return fmt.Sprintf("is too near the mount's axis, %s up about it, %s at most", whole(r.AboutAxis), whole(r.Limits.Highest))
	}
	return "is behind " + the(r.Obstruction)
}

// leaving says what a star does when it ceases to be fit.
func leaving(by plan.Unfit, obstruction string, w plan.AltitudeLimits) string {
	switch by {
	case plan.TooLow, plan.Down:
		return "sinks under " + whole(w.Lower())
	case plan.TooHigh:
		return "climbs past " + whole(w.Highest)
	}
	return "goes behind " + the(obstruction)
}

// the names an obstruction as a sentence does.
func the(obstruction string) string {
	if obstruction == "" {
		return "the skyline"
	}
	return "the " + strings.TrimPrefix(obstruction, "the ")
}

func whole(a sky.Angle) string { return words.Degrees(a, 0) }

// nearby prints an angle that may be small.
func nearby(a sky.Angle) string {
	if a < sky.Degree {
		return words.Arcminutes(a, 0)
	}
	return words.Degrees(a, 1)
}

// inTime prints a time to come, rounded down so that nobody counts on more than there is.
func inTime(d time.Duration) string {
	if d < time.Minute {
		return "less than a minute"
	}
	return words.LastingAtMost(d)
}
