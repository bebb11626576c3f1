// Package facts says what the screens show: plain values, derived from kit, plan, the night so far and
// the instant. Screens turn them into text; nothing here does.
package facts

import (
	"time"

	"duskhand/checklist"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Tonight is what stands until something new is said or some minutes pass: the course of the present
// target, what its run and subs have come to, and the plan for the rest.
type Tonight struct {
	Kit    kit.Kit
	Night  *plan.Night
	Log    checklist.Night
	Target kit.Target
	Axis   kit.Axis
	Spread *plan.Spread // of the axis, if a fit gave it
	Course *plan.Course

	Windows []plan.Window
	Dusk    plan.Schedule // the whole night's plan for the target, as it looked before anything happened

	Anchor *plan.Anchor // where the derotator tracks from; nil while it is off or its angle unknown
	Taken  plan.Sequence
	InRun  []plan.Sub      // subs of the open run in stretches that have ended
	Subs   *checklist.Subs // the stretch going on; nil if none, or through a filter that the kit lacks

	subs   tally.Subs
	going  plan.Sequence           // Taken, for the filter of the stretch going on
	while  plan.Call               // of the stretch going on
	called bool                    // while means something
	others map[string]*plan.Course // of the targets of earlier runs, by name
	Past   []RunRow
	Ahead  plan.Schedule // after the present run, or from the instant of computing on

	sky    *skyOfNight
	shared *divided // nil if the night is not divided

	until time.Time // the end of what a target has that was chosen outside its turn; zero if it was not
	free  time.Time // the end of its last window by then
}

// For derives the facts of the night. The earlier Tonight, if any, lends what has not changed: the sky of
// the night, and the target's course when target and axis are the same.
func For(k kit.Kit, date plan.Date, log checklist.Night, now time.Time, earlier *Tonight) *Tonight {
	t := &Tonight{Kit: k, Log: log, Axis: tally.Axis(k, log)}
	if log.Axis != nil {
		t.Spread = log.Axis.Spread
	}
	t.inheritNight(date, earlier)
	t.divide(earlier)
	t.Target = t.present(now)
	t.inheritCourse(earlier)
	t.followSubs()
	t.past(now)
	t.ahead(now)
	return t
}

func (t *Tonight) inheritNight(date plan.Date, earlier *Tonight) {
	if earlier != nil && earlier.Night.Date == date {
		t.Night, t.sky = earlier.Night, earlier.sky
	} else {
		t.Night = plan.NewNight(t.Kit, date)
		t.sky = newSkyOfNight(t.Night)
	}
}

func (t *Tonight) inheritCourse(earlier *Tonight) {
	var turns []plan.Span
	turns, t.until = t.ownTurns()
	t.others = map[string]*plan.Course{}
	if earlier != nil && t.Night == earlier.Night && t.Axis == earlier.Axis && same(t.Spread, earlier.Spread) {
		t.others = earlier.others
		if t.Target.Star == earlier.Target.Star && t.Night.RuleFor(t.Target) == earlier.Course.Rule &&
			t.shared == earlier.shared && t.until.Equal(earlier.until) {
			t.Course, t.Windows, t.Dusk, t.free = earlier.Course, earlier.Windows, earlier.Dusk, earlier.free
			return
		}
	}
	t.Course = t.courseOf(t.Target)
	t.holdToTurns(turns)
	t.Dusk = t.Course.Schedule(plan.Start{At: t.Night.Span.From}, plan.NewSequence(t.Course.Kit.Subs))
}

// courseOf returns the course of a target with the axis as known now.
func (t *Tonight) courseOf(target kit.Target) *plan.Course {
	if course, known := t.others[target.Name]; known {
		return course.WithRule(t.Night.RuleFor(target))
	}
	course := t.Night.CourseWithin(target, t.Axis, t.Spread)
	t.others[target.Name] = course
	return course
}

func same(a, b *plan.Spread) bool {
	return a == b || a != nil && b != nil && *a == *b
}

// followSubs counts the subs so far, and finds the last that fits of those going on.
func (t *Tonight) followSubs() {
	t.subs = tally.Count(t.Kit, t.Log, tally.Chosen(t.Kit, t.Log, nil).Name)
	t.Taken = t.subs.Sequence(t.Target.Name)
	for i, run := range t.Log.Runs {
		if run.Open {
			t.InRun = t.subs.Runs[i]
		}
	}
	if t.Log.DerotatorOn && t.Log.Anchor != nil {
		t.Anchor = &plan.Anchor{At: t.Log.Anchor.At, Angle: t.Log.Anchor.Angle}
	}
	t.going = t.Taken
	stretch, going := t.subs.Going()
	if !going || t.Anchor == nil {
		return
	}
	var known bool
	if t.going, known = t.Taken.Only(stretch.Filter); known {
		t.Subs = &stretch
		t.while, t.called = t.Course.CallWhile(t.Windows, *t.Anchor, stretch.Start, t.going)
	}
}

// Call returns when the operator must act on the present run; ok is false without a run, and after the
// last window.
func (t *Tonight) Call(now time.Time) (call plan.Call, ok bool) {
	switch {
	case t.Anchor == nil:
		return plan.Call{}, false
	case t.Subs != nil:
		return t.while, t.called
	}
	return t.Course.CallBefore(t.Windows, *t.Anchor, now, t.Taken)
}

// LastNo returns the number in the run of the last sub that fits.
func (t *Tonight) LastNo() int { return len(t.InRun) + len(t.while.Subs) }

// ahead plans what follows the present run, or the whole rest if there is none.
func (t *Tonight) ahead(now time.Time) {
	from, sequence, at := now, t.Taken, t.Log.Parked
	if call, ok := t.Call(now); ok {
		if last, any := call.Last(); any && last.Over.After(from) {
			from = last.Over
		}
		sequence, _ = call.After.Only("")
	}
	if t.Anchor != nil {
		angle := t.held(t.Course.Angle(*t.Anchor, from))
		at = &angle
	}
	t.Ahead = t.Course.Schedule(plan.Start{At: from, Stage: at}, sequence)
}

// SubsLeft returns the exposure that the night still gives by the plan: what the present run has yet to
// give, and the runs after it.
func (t *Tonight) SubsLeft(now time.Time) time.Duration {
	left := t.Ahead.Exposed() + t.laterExposed(now)
	call, ok := t.Call(now)
	if !ok {
		return left
	}
	for _, sub := range call.Subs {
		left += max(0, sub.Exposure.To.Sub(later(sub.Exposure.From, now)))
	}
	return left
}

// held keeps a computed angle within the travel: the stage stops at its limits.
func (t *Tonight) held(angle sky.Angle) sky.Angle {
	return max(t.Kit.Derotator.Min, min(angle, t.Kit.Derotator.Max))
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// WorthTelling is the least loss of exposure that the night's answer speaks of: a sub or two.
const WorthTelling = 5 * time.Minute
