package plan

import (
	"fmt"
	"strings"
	"time"

	"duskhand/sky"
	"duskhand/sky/words"
)

// Unfit is why a star will not do.
type Unfit int

// What keeps a star out, the gravest first: of several reasons a star is given the first.
const (
	NearSun    Unfit = iota // the Sun is up and too near: never point there
	Down                    // below the true horizon
	TooLow                  // under the lowest altitude about the mount's axis
	TooHigh                 // above the highest, or in the keyhole
	Obstructed              // behind the horizon profile
	TooFaint                // for the twilight
	NearMoon                // in its glare
	Confusable              // another star beside it, or one that looks alike
	NotKnown                // to the mount: the kit's list of known stars lacks it
)

// Rejected is a star that is bright enough by the kit and will not do.
type Rejected struct {
	Candidate
	Unfit       Unfit
	In          time.Duration // from now: 0, or when it ceases to be fit within the time it must stay so
	Obstruction string        // what the horizon profile names, "" if it has no name
	Alike       string        // name of the star that it would be taken for
	Apart       sky.Angle     // from the Sun, the Moon or the star alike
	limits      limits
	sun         sky.Angle
}

// Reason says in words why the star will not do, as the end of a sentence that names it.
func (r Rejected) Reason() string {
	switch r.Unfit {
	case NearSun:
		return fmt.Sprintf("is %s from the Sun, which is up: never point there", whole(r.Apart))
	case Down:
		return "is below the horizon"
	case TooFaint:
		if r.sun >= sky.SunAtHorizon {
			return "does not show while the Sun is up"
		}
		return fmt.Sprintf("is too faint while the Sun is only %s down", whole(-r.sun))
	case NearMoon:
		return fmt.Sprintf("is drowned by the Moon, %s away", whole(r.Apart))
	case NotKnown:
		return "is not among the stars that your mount knows (stars.known)"
	case Confusable:
		return fmt.Sprintf("could be taken for %s, %s away", r.Alike, near(r.Apart))
	}
	if r.In > 0 {
		return leavingWords(r.Unfit, r.Obstruction, r.limits) + " in " + minutes(r.In)
	}
	switch r.Unfit {
	case TooLow:
		return fmt.Sprintf("is too low, %s up about the mount's axis, %s wanted", whole(max(0, r.AboutAxis)), whole(max(r.limits.lowest, r.limits.leastTrue)))
	case TooHigh:
		return fmt.Sprintf("is too near the mount's axis, %s up about it, %s at most", whole(r.AboutAxis), whole(r.limits.highest))
	}
	return "is behind " + the(r.Obstruction)
}

// leavingWords says what a star does when it ceases to be fit.
func leavingWords(by Unfit, obstruction string, w limits) string {
	switch by {
	case TooLow, Down:
		return "sinks under " + whole(max(w.lowest, w.leastTrue))
	case TooHigh:
		return "climbs past " + whole(w.highest)
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

// near prints an angle that may be small.
func near(a sky.Angle) string {
	if a < sky.Degree {
		return words.Arcminutes(a, 0)
	}
	return words.Degrees(a, 1)
}

// minutes prints a time to come, rounded down so that nobody counts on more than there is.
func minutes(d time.Duration) string {
	if d < time.Minute {
		return "less than a minute"
	}
	return words.LastingAtMost(d)
}
