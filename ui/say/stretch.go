package say

import (
	"fmt"

	"duskhand/plan/share"
	"duskhand/sky"
	"duskhand/sky/words"
)

// Stretch says a target's part of a divided night in one line.
func Stretch(s share.Stretch) string {
	zone := s.Course.Kit.Site.Zone
	rewinds := "no rewind"
	if s.Rewinds > 0 {
		rewinds = words.Count(s.Rewinds, "rewind")
	}
	return fmt.Sprintf("%s to %s %s: %s of exposure, %s, %s for %s wanted; %s", words.MinuteFrom(s.From, zone), words.Minute(s.To, zone),
		s.Target.Name, words.Lasting(s.Exposed), rewinds, words.Percent(s.Got, 0), words.Percent(s.Wanted, 0), stretchEnds(s))
}

func stretchEnds(s share.Stretch) string {
	from := " from " + words.Minute(s.Ends.At, s.Course.Kit.Site.Zone) + " on"
	switch s.Ends.Why {
	case share.Complete:
		return "complete"
	case share.NightOver:
		return "the night ends"
	case share.Obstructed:
		return "behind the " + s.Ends.Obstruction + from
	case share.Closes:
		return s.Ends.Bound.Text() + from
	}
	return "handed over so that the others get their share"
}

// NoTurn says why a target gets nothing of a divided night.
func NoTurn(left share.LeftOut, floor sky.Angle) string {
	switch left.Why {
	case share.NeverDark:
		return "it is never dark enough this night"
	case share.Wanted:
		return "complete"
	case share.InKeyhole:
		return "in the keyhole all the time that it is up in the dark"
	case share.NotUp:
		return fmt.Sprintf("not above %s and clear of the horizon in what is left of the dark", words.Degrees(floor, 0))
	case share.NoRun:
		return "no run that a sub fits"
	}
	return "no room beside the others"
}
