package advice

import (
	"time"

	"duskhand/checklist"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/guiding"
	"duskhand/sky"
)

// Guide is what tonight's calibration of the guiding is worth at an instant and after it.
type Guide struct {
	checklist.GuideAngle
	Radius float64         // of the guiding's loop by the worst kind: below 1 it converges
	Until  sky.Event       // when the open run outgrows the calibration; not OK if it does not
	Next   *GuideHereafter // after the next rewind or hand-over; nil if none comes
}

// GuideHereafter is what the calibration will be worth at the start of the next run.
type GuideHereafter struct {
	checklist.GuideAngle
	At     time.Time // when that run begins
	Target string
	Stage  sky.Angle // where it begins
	Best   sky.Angle // where the stage would stand for a calibration that serves most of that run
}

// course returns the course of a target of the night's events, with the axis as known.
func (t *Tonight) course(target *checklist.Target) *plan.Course {
	chosen := tally.Chosen(t.Kit, t.Log, target)
	if chosen.Name == t.Target.Name && chosen.Star == t.Target.Star {
		return t.Course
	}
	return t.CourseOf(chosen)
}

// GuideNow returns what the calibration is worth at the instant alone; ok is false where Guide has it so.
func (m Moment) GuideNow() (g checklist.GuideAngle, ok bool) {
	return m.Log.GuideAngleAt(m.Kit, m.course, m.Now)
}

// Guide returns what the calibration is worth; ok is false while none was made tonight, or nobody knows how the
// derotator stood then or stands now.
func (m Moment) Guide() (g Guide, ok bool) {
	if g.GuideAngle, ok = m.GuideNow(); !ok {
		return Guide{}, false
	}
	g.Radius = g.Aged.Radius(m.Kit.Guide.Gain)
	if m.Anchor != nil {
		g.Until = m.Log.GuideHoldsUntil(m.Kit, m.course, m.Now, m.Call.By)
	}
	g.Next = m.guideHereafter()
	return g, true
}

// FirstOf is when something is first to be done or seen: by an instant, or before it where the guiding's calibration
// holds no longer. On a mount of an unknown kind it may hold for longer, and the subs that come then show it.
func (m Moment) FirstOf(by time.Time) time.Time {
	if g, ok := m.Guide(); ok && g.Verdict == guiding.Holds && len(g.Kinds) == 1 && g.Until.OK && g.Until.At.Before(by) {
		return g.Until.At
	}
	return by
}

func (m Moment) guideHereafter() *GuideHereafter {
	target, course, run, any := m.nextRun()
	if !any {
		return nil
	}
	next := GuideHereafter{At: run.From, Target: target, Stage: run.StartAngle}
	angle, ok := m.Log.GuideAngleIn(m.Kit, m.course, guiding.PoseAt(course, run.StartAngle, run.From))
	if !ok {
		return nil
	}
	next.GuideAngle = angle
	next.Best = guiding.BestStage(angle.Of, m.Kit.Guide.Gain, guiding.Stretch{Course: course, Run: run})
	return &next
}

// nextRun is the run that the plan has next, on this target or after a hand-over.
func (m Moment) nextRun() (target string, course *plan.Course, run plan.Run, any bool) {
	next, handsOver := m.Following()
	if runs := m.Ahead().Runs; len(runs) > 0 && (!handsOver || runs[0].From.Before(next.From)) {
		return m.Target.Name, m.Course, runs[0], true
	}
	if !handsOver || len(next.Runs.Runs) == 0 {
		return "", nil, plan.Run{}, false
	}
	return next.Target.Name, m.CourseOf(next.Target), next.Runs.Runs[0], true
}
