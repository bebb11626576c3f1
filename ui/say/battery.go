package say

import (
	"fmt"
	"strings"
	"time"

	"duskhand/plan/supplies"
	"duskhand/sky/words"
)

// battery says whether the battery lasts in a sentence or two, with times of the day in a zone.
func battery(p supplies.Power, zone *time.Location) string {
	load, most, any := p.Greedy()
	switch {
	case len(p.Lacks) > 0 && any:
		return fmt.Sprintf("The night takes %.0f Wh; give %s in the kit to know whether the battery lasts.", p.NeededWh, strings.Join(p.Lacks, ", "))
	case len(p.Lacks) > 0:
		return fmt.Sprintf("Give %s in the kit to know whether the battery lasts.", strings.Join(p.Lacks, ", "))
	case p.Empty.OK:
		return fmt.Sprintf("The battery is empty at %s: the night takes %.0f Wh and %.0f are usable. The most goes to %s, %.0f Wh.",
			words.MinuteWithZone(p.Empty.At, zone), p.NeededWh, p.UsableWh, load.Name, most)
	}
	return fmt.Sprintf("The night takes %.0f Wh of the %.0f usable: %s are left at %s.", p.NeededWh, p.UsableWh, words.Percent(p.LeftShare, 0),
		words.MinuteWithZone(p.Span.To, zone))
}
