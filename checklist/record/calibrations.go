package record

import (
	"fmt"
	"slices"

	"duskhand/checklist"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/guiding"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
)

// withCalibrations adds when the guiding was calibrated and where the derotator stood then, in the order of
// time. Ticked steps say it too.
func (l log) withCalibrations(mentions []Mention, sun *plan.Night, axis kit.Axis) []Mention {
	axis.Uncertainty = 0 // no bounds are asked for
	courseOf := func(t *checklist.Target) *plan.Course { return sun.Course(tally.Chosen(l.kit, l.night, t), axis) }
	for _, made := range l.night.Guiding.Calibrations {
		text := "guiding calibrated"
		if pose, known := l.night.PoseOf(made, courseOf); known {
			text += ", the derotator at " + words.Degrees(pose.Stage, 1)
		}
		mentions = append(mentions, Mention{At: made.At, Kind: "guiding", Text: text})
	}
	for i := range l.night.Runs {
		if m, aged := l.agedAt(i, courseOf); aged {
			mentions = append(mentions, m)
		}
	}
	slices.SortStableFunc(mentions, func(a, b Mention) int { return a.At.Compare(b.At) })
	return mentions
}

// leastAged is the angle from which a calibration is said to be off: less is what a derotator's scale is read to.
const leastAged = 1 * sky.Degree

// agedAt tells how far off the calibration was with which a run began, by the kind of mount of which it was the worst; ok
// is false where there was none, or it was not off, or nobody knew the derotator's angle.
func (l log) agedAt(run int, courseOf checklist.CourseOf) (m Mention, ok bool) {
	begun := l.night.Runs[run].Start
	then := l.night
	then.Guiding.Calibrations = slices.DeleteFunc(slices.Clone(then.Guiding.Calibrations), func(s checklist.Stood) bool { return !s.At.Before(begun) })
	then.Guiding.Checks = slices.DeleteFunc(slices.Clone(then.Guiding.Checks), func(c checklist.GuideCheck) bool { return !c.Now.At.Before(begun) })
	pose, known := then.PoseOf(checklist.Stood{At: begun, Target: l.night.Runs[run].Target, Run: run}, courseOf)
	if !known {
		return Mention{}, false
	}
	g, made := then.GuideAngleIn(l.kit, courseOf, pose)
	if !made || g.Verdict == guiding.Holds && g.Aged.Angle.Abs() < leastAged {
		return Mention{}, false
	}
	text := fmt.Sprintf("run %d begins with the calibration %s off, its scale %s", run+1, words.Degrees(g.Aged.Angle.Abs(), 1), words.Number(g.Aged.Scale, 2))
	if !g.Certain() {
		text += ", if the mount's corrections are by " + string(g.Of)
	}
	return Mention{At: begun, Kind: "guiding", Text: text}, true
}
