// Package advice decides what is to be done now: from the kit, the night so far, the plan of what is left, and
// the instant. It is decided here once, and whoever says it, on a screen, in a line, by an alarm, asks here.
//
// What it returns are kinds and numbers; nothing here makes a sentence.
package advice

import (
	"sync"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/worth"
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
	worth   *plan.Worth // of the target's subs; nil where their order does not depend on it

	Anchor *plan.Anchor // where the derotator tracks from; nil while it is off or its angle unknown
	Taken  plan.Sequence
	InRun  []plan.Sub      // subs of the open run in stretches that have ended
	Subs   *checklist.Subs // the stretch going on; nil if none, or through a filter that the kit lacks

	subs   tally.Subs
	going  plan.Sequence           // Taken, for the filter of the stretch going on
	while  plan.Call               // of the stretch going on
	called bool                    // while means something
	others map[string]*plan.Course // of the targets of earlier runs, by name

	now    time.Time // at which the facts were derived
	kept   *kept
	ahead  func() plan.Schedule
	turned func() plan.Schedule // from a rewind at once on, while the derotator tracks
	dusk   func() plan.Schedule
	past   func() []RunRow

	elsewhere func() Elsewhere
	asked     *asked

	shared *divided // nil if the night is not divided

	endBy time.Time // by which the run that goes on is better ended than at its limit; zero if it is not

	until time.Time // the end of what a target has that was chosen outside its turn; zero if it was not
	free  time.Time // the end of its last window by then
}

// For derives the facts of the night. The earlier Tonight, if any, lends what has not changed: the sky of
// the night, and the target's course when target and axis are the same.
func For(k kit.Kit, date plan.Date, log checklist.Night, now time.Time, earlier *Tonight) *Tonight {
	t := &Tonight{Kit: tally.Kit(k, log), Log: log, Axis: tally.Axis(k, log), now: now, kept: &kept{}, asked: &asked{}}
	if log.Axis != nil {
		t.Spread = log.Axis.Spread
	}
	t.inheritNight(date, earlier)
	t.divide(earlier)
	t.Target = t.present(now)
	t.inheritCourse(earlier)
	t.followSubs()
	t.order()
	t.endEarly(earlier)
	t.ahead, t.past = sync.OnceValue(t.planAhead), sync.OnceValue(t.runsSoFar)
	t.turned, t.elsewhere = sync.OnceValue(t.planTurned), sync.OnceValue(t.findElsewhere)
	return t
}

// Ahead is the plan for what comes after the present run, or from the instant of deriving on.
func (t *Tonight) Ahead() plan.Schedule { return t.ahead() }

// Dusk is the whole night's plan for the target, as it looked before anything happened.
func (t *Tonight) Dusk() plan.Schedule { return t.dusk() }

func (t *Tonight) inheritNight(date plan.Date, earlier *Tonight) {
	if earlier != nil && earlier.Night.Date == date && earlier.Kit.Camera == t.Kit.Camera {
		t.Night = earlier.Night
	} else {
		t.Night = plan.NewNight(t.Kit, date)
	}
}

func (t *Tonight) inheritCourse(earlier *Tonight) {
	var turns []plan.Span
	turns, t.until = t.ownTurns()
	t.others = map[string]*plan.Course{}
	if earlier != nil && t.Night == earlier.Night && t.Axis == earlier.Axis && same(t.Spread, earlier.Spread) {
		t.others, t.kept = earlier.others, earlier.kept
		if t.Target.Star == earlier.Target.Star && t.Night.RuleFor(t.Target) == earlier.Course.Rule &&
			t.shared == earlier.shared && t.until.Equal(earlier.until) {
			t.Course, t.Windows, t.dusk, t.free, t.worth = earlier.Course, earlier.Windows, earlier.dusk, earlier.free, earlier.worth
			return
		}
	}
	t.Course = t.CourseOf(t.Target)
	t.holdToTurns(turns)
	if t.holdToDivision() {
		return
	}
	t.worth = worth.Of(t.Night, t.Target)
	course, begins, whole := t.Course, plan.Start{At: t.Night.Span.From}, plan.NewSequence(t.Course.Kit.Subs).By(t.worth)
	t.dusk = sync.OnceValue(func() plan.Schedule { return course.Schedule(begins, whole) })
}

// CourseOf returns the course of a target with the axis as known now.
func (t *Tonight) CourseOf(target kit.Target) *plan.Course {
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
	t.subs.Apart(func(target *checklist.Target) []plan.Span { return t.Night.DarkFor(tally.Chosen(t.Kit, t.Log, target)) })
	t.Taken = t.subs.Sequence(t.Target.Name).By(t.worth)
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
	if t.going, known = t.subs.Begin(t.Target.Name, stretch); known {
		t.going = tally.Insisted(t.going.By(t.worth), stretch.Start, t.Course.Dark)
		t.Subs = &stretch
		t.while, t.called = t.Course.CallWhile(t.Windows, *t.Anchor, stretch.Start, t.going)
		t.while = t.ended(t.while, stretch.Start, t.going)
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
	call, ok = t.Course.CallBefore(t.Windows, *t.Anchor, now, t.Taken)
	return t.ended(call, later(now, call.Window.From), t.Taken), ok
}

// LastNo returns the number in the run of the last sub that fits.
func (t *Tonight) LastNo() int { return len(t.InRun) + len(t.while.Subs) }

// planAhead plans what follows the present run, or the whole rest if there is none.
func (t *Tonight) planAhead() plan.Schedule {
	from, sequence := t.startAhead()
	return t.kept.schedule(t.Course, from, sequence)
}

// planTurned plans the night from a rewind at once on: what comes before a turn is done.
func (t *Tonight) planTurned() plan.Schedule {
	if t.Anchor == nil {
		return plan.Schedule{}
	}
	angle := t.Held(t.Course.Angle(*t.Anchor, t.now))
	return t.kept.schedule(t.Course, plan.Start{At: t.now.Add(-t.Kit.Subs.BeforeTurn()), Stage: &angle, Between: true}, t.Taken)
}

// startAhead is the state of the night that follows the present run, or the present one if there is none.
func (t *Tonight) startAhead() (plan.Start, plan.Sequence) {
	from, sequence, at, between := t.loopFrom(), t.Taken, t.Log.Parked, t.begun()
	if call, ok := t.Call(t.now); ok {
		if last, any := call.Last(); any && last.Over.After(from) {
			from, between = last.Over, true
		}
		sequence, _ = call.After.Only("")
		sequence = sequence.Taking()
	}
	if t.Anchor != nil {
		angle := t.Held(t.Course.Angle(*t.Anchor, from))
		at = &angle
	}
	return plan.Start{At: from, Stage: at, Between: between}, sequence
}

// loopFrom is since when a rewind is on its way: since the last sub of the run was over, as far as what comes before the
// turn may still take from there on; now if no sub of it was taken.
func (t *Tonight) loopFrom() time.Time {
	if n := len(t.InRun); n > 0 && t.Subs == nil {
		return earlier(t.now, later(t.InRun[n-1].Over, t.now.Add(-t.Kit.Subs.BeforeTurn())))
	}
	return t.now
}

// begun tells that subs were taken in the last run: the next one comes after a rewind.
func (t *Tonight) begun() bool {
	n := len(t.subs.Runs)
	return t.Subs != nil || n > 0 && len(t.subs.Runs[n-1]) > 0
}

// endEarly finds out whether the run that goes on is better ended before its limit, because a rewind then buys more
// than one at the limit: where the stage stops at its ends only, by far. What was found stands until something is said.
//
// A stage that stops anywhere gains less than two hundredths so, and is left alone: nothing of the night need be
// planned then to say when its run ends.
func (t *Tonight) endEarly(earlier *Tonight) {
	if t.Anchor == nil || t.Kit.Derotator.StopsAnywhere {
		return
	}
	if earlier != nil && earlier.Course == t.Course && sameSoFar(t.Log, earlier.Log) {
		t.endBy = earlier.endBy
	} else {
		t.endBy = t.betterEnd(t.now)
	}
	if !t.endBy.IsZero() {
		t.followSubs()
		t.order()
	}
}

// endsEarlyFor is the exposure that ending a run early must gain: a sub or two more or less is no reason.
const endsEarlyFor = 3 * time.Minute

func (t *Tonight) betterEnd(now time.Time) time.Time {
	call, ok := t.Call(now)
	if !ok || call.For != plan.ForLimit || !now.Before(call.At) {
		return time.Time{}
	}
	from := underWay(call.Subs, now)
	best := t.Course.Schedule(plan.Start{At: from, Tracking: t.Anchor}, t.Taken)
	stays := t.planAhead().Exposed()
	for _, sub := range call.Subs {
		stays += max(0, sub.Exposure.To.Sub(later(sub.Exposure.From, from)))
	}
	if len(best.Runs) == 0 || best.Exposed() < stays+endsEarlyFor || len(best.Rewinds) == 0 {
		return time.Time{}
	}
	if end := best.Rewinds[0].From; end.Before(call.At) {
		return end
	}
	return time.Time{}
}

// underWay is when the sub that is being taken at an instant is over; the instant where none is. What comes after it can
// be weighed alike at any moment of the sub: its rest is exposed whether the run ends early or not.
func underWay(subs []plan.Sub, now time.Time) time.Time {
	for _, sub := range subs {
		if sub.Exposure.From.Before(now) && now.Before(sub.Over) {
			return sub.Over
		}
	}
	return now
}

// sameSoFar tells whether two states of a night have the same said of derotator and subs.
func sameSoFar(a, b checklist.Night) bool {
	return a.Latest.Equal(b.Latest) && len(a.Runs) == len(b.Runs) && (a.Subs == nil) == (b.Subs == nil) && len(a.Readings) == len(b.Readings)
}

// ended is a call whose run is better ended before its limit: the last sub is then the last that is over by that.
func (t *Tonight) ended(call plan.Call, since time.Time, sequence plan.Sequence) plan.Call {
	if t.endBy.IsZero() || call.For != plan.ForLimit || !t.endBy.Before(call.By) {
		return call
	}
	call.By = t.endBy
	call.Subs, call.After = sequence.Run(since, call.By)
	call.At = since
	if last, any := call.Last(); any {
		call.At = last.Over
	}
	return call
}

// SubsLeft returns the exposure that the night still gives by the plan: what the present run has yet to
// give, and the runs after it.
func (t *Tonight) SubsLeft(now time.Time) time.Duration {
	left := t.Ahead().Exposed() + t.laterExposed(now)
	call, ok := t.Call(now)
	if !ok {
		return left
	}
	subs := call.Subs
	if ends := t.loopEnds(); now.Before(ends) {
		subs, _ = t.Taken.Run(later(ends, call.Window.From), call.By)
	}
	for _, sub := range subs {
		if tally.InTheDark(t.Course.Dark, sub) { // others count apart
			left += max(0, sub.Exposure.To.Sub(later(sub.Exposure.From, now)))
		}
	}
	return left
}

// loopEnds is when subs can be expected to begin after the derotator was turned on or rewound, by the kit's loop; zero
// once they have.
func (t *Tonight) loopEnds() time.Time {
	if t.Subs != nil || len(t.InRun) > 0 || t.Log.Anchor == nil || t.Log.Anchor.Why == checklist.WhyRead || t.Log.Anchor.Why == checklist.WhyTarget {
		return time.Time{}
	}
	return t.Log.Anchor.At.Add(t.Kit.Subs.AfterTurn())
}

// Held keeps a computed angle within the travel: the stage stops at its limits.
func (t *Tonight) Held(angle sky.Angle) sky.Angle {
	return max(t.Kit.Derotator.Min, min(angle, t.Kit.Derotator.Max))
}

func earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}
