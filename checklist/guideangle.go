package checklist

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/guiding"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// CourseOf returns the course of a target through this night; for nil, when none was chosen, that of the
// target that the night is meant for.
type CourseOf func(*Target) *plan.Course

// GuideAngle is what the guiding's calibration is worth in one pose of the telescope. Kinds are the kinds of
// mount that it may be: the kit's, or those that the night's checks leave. Verdict is the worst over them, Of
// the kind that it is of and Aged how far off the calibration is by it; Least is the best over them. Ask tells whether seeing what a
// correction does would tell the kinds apart here; Slip, that the answers so far contradict each other.
type GuideAngle struct {
	Calibrated Stood
	Kinds      []kit.Corrections
	Verdict    guiding.Verdict
	Of         kit.Corrections
	Aged       guiding.Aged
	Least      guiding.Verdict
	Ask, Slip  bool
}

// Certain tells whether the verdict holds whichever kind of mount it is.
func (g GuideAngle) Certain() bool { return len(g.Kinds) == 1 || g.Verdict == guiding.Holds }

// GuideKinds returns the kinds of mount that this may be, and whether tonight's checks contradict each other.
func (n Night) GuideKinds(k kit.Kit, courseOf CourseOf) (kinds []kit.Corrections, slip bool) {
	if k.Guide.Corrections != "" {
		return []kit.Corrections{k.Guide.Corrections}, false
	}
	var checks []guiding.Check
	for _, c := range n.Guiding.Checks {
		calibrated, known := n.PoseOf(c.Calibrated, courseOf)
		now, knownNow := n.PoseOf(c.Now, courseOf)
		if known && knownNow {
			checks = append(checks, guiding.Check{Calibrated: calibrated, Now: now, Yes: c.Yes})
		}
	}
	kinds, ok := guiding.Kinds(checks)
	return kinds, !ok
}

// GuideAngleAt returns what the calibration is worth as the telescope stands at an instant. ok is false when
// there is none tonight, or nobody knows how the derotator stood then or stands now.
func (n Night) GuideAngleAt(k kit.Kit, courseOf CourseOf, at time.Time) (g GuideAngle, ok bool) {
	now, known := n.PoseOf(n.stood(at), courseOf)
	if !known {
		return GuideAngle{}, false
	}
	return n.GuideAngleIn(k, courseOf, now)
}

// GuideAngleIn returns what the calibration is worth in a pose to come, as of the next run.
func (n Night) GuideAngleIn(k kit.Kit, courseOf CourseOf, pose guiding.Pose) (g GuideAngle, ok bool) {
	calibration, made := n.Guiding.Calibration()
	calibrated, known := n.PoseOf(calibration, courseOf)
	if !made || !known {
		return GuideAngle{}, false
	}
	g.Calibrated = calibration
	g.Kinds, g.Slip = n.GuideKinds(k, courseOf)
	g.Verdict, g.Of, g.Aged = guiding.Worst(g.Kinds, calibrated, pose, k.Guide.Gain)
	g.Least = guiding.Least(g.Kinds, calibrated, pose, k.Guide.Gain)
	g.Ask = len(g.Kinds) > 1 && guiding.Parted(g.Kinds, calibrated, pose)
	return g, true
}

// GuideHoldsUntil returns when the open run will outgrow the calibration, between two instants; not OK if it
// does not, if no run is open, or if nothing can be told.
func (n Night) GuideHoldsUntil(k kit.Kit, courseOf CourseOf, from, to time.Time) sky.Event {
	run, open := n.OpenRun()
	if _, ok := n.GuideAngleAt(k, courseOf, from); !ok || !open {
		return sky.Event{}
	}
	calibration, _ := n.Guiding.Calibration()
	calibrated, _ := n.PoseOf(calibration, courseOf)
	kinds, _ := n.GuideKinds(k, courseOf)
	at, angle := run.Known()
	poses := guiding.Tracked(courseOf(run.Target), plan.Anchor{At: at, Angle: angle})
	var first sky.Event
	for _, kind := range kinds {
		aged := func(t time.Time) guiding.Aged { return guiding.Since(kind, calibrated, poses(t)) }
		end := guiding.HoldsUntil(aged, k.Guide.Gain, from, to)
		if end.OK && (!first.OK || end.At.Before(first.At)) {
			first = end
		}
	}
	return first
}

// PoseOf returns how the telescope stood. known is false when nobody knows the derotator's angle there.
func (n Night) PoseOf(s Stood, courseOf CourseOf) (p guiding.Pose, known bool) {
	course := courseOf(s.Target)
	if course == nil {
		return guiding.Pose{}, false
	}
	switch {
	case s.Run >= 0 && s.Run < len(n.Runs):
		at, angle := n.Runs[s.Run].Known()
		return guiding.Tracked(course, plan.Anchor{At: at, Angle: angle})(s.At), true
	case s.Parked != nil:
		return guiding.PoseAt(course, *s.Parked, s.At), true
	}
	return guiding.Pose{}, false
}
