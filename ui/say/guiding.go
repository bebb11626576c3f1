package say

import (
	"fmt"

	"duskhand/plan/guiding"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// Guiding says what the calibration of the guiding is worth, longest first; ok is false when there is nothing to say of
// it: none was made tonight, or it holds, now and in the next run.
func Guiding(r facts.Run) (ways []string, ok bool) {
	g, known := r.Guide()
	if !known {
		return nil, false
	}
	off := words.DegreesAsRead(g.Aged.Angle.Abs())
	switch {
	case g.Slip:
		return []string{"the guide checks contradict each other: calibrate the guiding, and look again after the next rewind",
			"guide checks contradict: calibrate"}, true
	case g.Least == guiding.Diverges:
		return []string{"the guiding's calibration is " + off + " off and drives the star away: calibrate again", "calibration " + off + " off: runs away"}, true
	case g.Least != guiding.Holds:
		return []string{"the guiding's calibration is " + off + " off and corrects weakly: calibrate again", "calibration " + off + " off: again"}, true
	case g.Verdict != guiding.Holds && r.Log.Subs == nil:
		return []string{"the guiding's calibration may be " + off + " off: see that a correction moves the star back", "calibration " + off + " off? see it correct"}, true
	case g.Verdict != guiding.Holds: // it may be off already, and subs show whether it is
		return nil, false
	case g.Until.OK && len(g.Kinds) > 1: // what the mount does with corrections is not known: it may do well after that
		at := words.Minute(g.Until.At, r.Kit.Site.Zone)
		return []string{"the guiding's calibration holds until " + at + " at least; see on later subs that the stars stay round", "calibration good until " + at}, true
	case g.Until.OK:
		at := words.Minute(g.Until.At, r.Kit.Site.Zone)
		return []string{"the guiding's calibration holds until " + at + ", then calibrate again", "calibrate again by " + at}, true
	case g.Next != nil && g.Next.Least != guiding.Holds:
		return []string{fmt.Sprintf("the next run, from %s, wants a new calibration of the guiding, best made at %s",
			words.MinuteFrom(g.Next.At, r.Kit.Site.Zone), words.Signed(g.Next.Best)), "calibrate in the next run"}, true
	}
	return nil, false
}
