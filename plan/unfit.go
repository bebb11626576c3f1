package plan

import (
	"time"

	"duskhand/sky"
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
	Limits      AltitudeLimits
	Sun         sky.Angle // its altitude, airless
}
