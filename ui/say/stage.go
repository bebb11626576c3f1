package say

import (
	"math"
	"time"

	"duskhand/checklist/frames/stage"
	"duskhand/sky/words"
)

// Stage says what the stage does by the placed lights of a run, in words for ever less room: since when, by how much,
// and what to do about it. It is nothing while there is nothing to say.
func Stage(f stage.Finding, zone *time.Location) []string {
	by, at := words.Degrees(f.By.Abs(), decimalsOf(f)), words.Minute(f.To, zone)
	switch f.Kind {
	case stage.Slipped:
		return []string{"the stage slipped by " + by + " before the sub of " + at + " and follows again: see its clamp, and read its angle",
			"the stage slipped by " + by + " at " + at + ": read its angle", "the stage slipped by " + by}
	case stage.Sticks:
		return []string{"the stage has stood since " + at + ", the camera has turned by " + by + ": see that it is on and free, and rewind",
			"the stage has stood since " + at + ", " + by + " so far", "the stage stands: " + by}
	case stage.Backwards:
		return []string{"the stage turns the wrong way since " + at + ", the camera has turned by " + by + ": stop, and see derotator.sense in the kit",
			"the stage turns the wrong way since " + at + ", " + by + " so far", "the stage turns backwards: " + by}
	case stage.Turned:
		return []string{"the camera has turned by " + by + " since " + at + "; the next sub tells whether the stage slipped or sticks",
			"the camera turned by " + by + " at " + at, "the camera turned by " + by}
	case stage.Creeps:
		return []string{"the camera creeps, " + by + " since " + at + ": the mount takes its axis to lie where it does not, or the field turns about a guide star",
			"the camera creeps: " + by + " since " + at, "it creeps: " + by}
	}
	return nil
}

// decimalsOf prints a tenth of the error, one or two decimals.
func decimalsOf(f stage.Finding) int {
	if math.Abs(f.By.Degrees()) < 1 {
		return 2
	}
	return 1
}
