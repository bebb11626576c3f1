package say

import (
	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/sky/words"
)

// Early says what there is against something that is said before its time; nothing if it is not.
func Early(m advice.Moment, a checklist.Action) []string {
	early, ok := m.TooEarly(a)
	if !ok {
		return nil
	}
	from := words.MinuteFrom(early.Begins, m.Kit.Site.Zone)
	if _, on := a.(checklist.TurnOn); on {
		return []string{"Subs can begin at " + from + ": until then the derotator turns by " + words.Degrees(early.Turns, 0) + " that the run then lacks."}
	}
	if early.Why == advice.Twilight {
		return []string{"It is not dark before " + from + ": subs until then are not counted."}
	}
	return []string{"The target can't be used before " + from + "."}
}
