package facts

import (
	"fmt"

	"duskhand/checklist/advice"
	"duskhand/plan/guiding"
	"duskhand/sky/words"
)

// GuidingAges is the alert of a calibration that no longer serves.
const GuidingAges AlertKind = "guiding"

// GuideWords says what the calibration of the guiding is worth, longest first; ok is false when there is nothing to
// say of it: none was made tonight, or it holds, now and in the next run.
func (r Run) GuideWords() (ways []string, ok bool) {
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

// guidingAges warns while the calibration that guiding is by, or is about to be by, serves no longer.
func (r Run) guidingAges(do advice.Advice) Alert {
	a := Alert{Kind: GuidingAges, Words: "when the calibration is too far off to guide by"}
	g, known := r.GuideNow()
	if !known || g.Least == guiding.Holds || !r.Log.Guiding.On && do.Why != advice.CalibrationOld {
		return a
	}
	ways, _ := r.GuideWords()
	a.Level, a.Words, a.Brief = advice.Warning, ways[0], ways[len(ways)-1]
	if g.Least == guiding.Diverges && r.Log.Guiding.On && r.Log.Subs != nil {
		a.Level = advice.Calling
	}
	return a
}

// guideWords is what the checklist's sentence of looking at a correction needs.
func (r Run) guideWords(known map[string]string) {
	if g, ok := r.GuideNow(); ok && g.Verdict != guiding.Holds {
		known["guide_turned"] = words.DegreesAsRead(g.Aged.Angle.Abs())
	}
}
