package say

import (
	"fmt"
	"time"

	"duskhand/checklist/frames/drift"
	"duskhand/sky"
	"duskhand/sky/words"
)

// Drift says how the picture drifts and why, as far as lights can tell; "" where it does not.
func Drift(f drift.Finding) string {
	hourly := func(r sky.Rate) string { return words.Arcseconds(max(r, -r).Times(time.Hour), 0) }
	rate := fmt.Sprintf("%s an hour (%s in azimuth, %s in altitude)", hourly(f.Rate), hourly(f.Azimuth), hourly(f.Altitude))
	switch f.Kind {
	case drift.Unguided:
		return "unguided, the picture drifts by " + rate + ": alignment, or telescopes that bend; guiding takes it out"
	case drift.Turns:
		return "the picture drifts by " + rate + " and turns about the guide star: the axis is not where the mount has it"
	case drift.Bends:
		return "the picture drifts by " + rate + " though it is guided: the telescopes bend apart, or the guiding walks"
	}
	return ""
}
