package say

import (
	"slices"

	"duskhand/checklist"
	"duskhand/plan/guiding"
	"duskhand/plan/kit"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// CalibrationOff says in two words how far the calibration of the guiding is off as the telescope stands; "" where none
// was said tonight, or nobody knows how the derotator stood.
func CalibrationOff(r facts.Run) string {
	g, ok := r.GuideNow()
	if !ok {
		return ""
	}
	return words.DegreesAsRead(g.Aged.Angle.Abs()) + " off"
}

// Calibration says what the calibration is worth, now and in the next run; "" where CalibrationOff says nothing.
func Calibration(r facts.Run) string {
	g, ok := r.Guide()
	if !ok {
		return ""
	}
	long := "The calibration is " + CalibrationOff(r) + ", its scale " + words.Number(g.Aged.Scale, 2) + ": each exposure leaves " + words.Number(g.Radius, 2) + " of the error"
	switch {
	case g.Verdict == guiding.Holds && g.Until.OK:
		long += "; it holds until " + words.Minute(g.Until.At, r.Kit.Site.Zone)
		if len(g.Kinds) > 1 {
			long += " at least"
		}
	case g.Verdict == guiding.Holds:
		long += "; it holds"
	case g.Least == guiding.Holds:
		long += " on a mount that " + kindWords(g.Of) + "; on another it holds"
	case g.Least == guiding.Diverges:
		long += "; the star runs away: calibrate again"
	default:
		long += "; calibrate again"
	}
	if next := g.Next; next != nil && next.Verdict != guiding.Holds {
		wants := " wants"
		if next.Least == guiding.Holds {
			wants = " may want"
		}
		long += ". The next run" + wants + " another, best made at " + words.Signed(next.Best)
	}
	return long + "."
}

// kindWords names what a mount does with corrections, as the kit's help has it.
func kindWords(kind kit.Corrections) string {
	switch kind {
	case kit.AxesCorrections:
		return "moves its own axes as told"
	case kit.SkyCorrections:
		return "moves in right ascension and declination"
	}
	return "turns its corrections"
}

// Guides tells that a step is about guiding by a calibration: to make it, to see that it corrects, to start.
func Guides(s checklist.Step) bool {
	return slices.ContainsFunc(s.DoneBy, func(proof string) bool {
		return proof == checklist.KindGuidingCalibrated || proof == checklist.KindGuideCheck || proof == checklist.KindGuidingOn
	})
}
