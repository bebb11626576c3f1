// Package facts says what the screens show: plain values, derived from kit, plan, the night so far and
// the instant. Screens turn them into text; nothing here does.
package facts

import (
	"time"

	"duskhand/checklist"
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
	Dusk    plan.Runs // the whole night's plan for the target, as it looked before anything happened

	Anchor *plan.Anchor // where the derotator tracks from; nil while it is off or its angle unknown
	Limit  plan.Limit   // of the present run
	CallBy time.Time    // by when the present run's last sub must be over; zero without Anchor
	Taken  plan.Sequence
	InRun  []plan.Sub // subs of the open run in stretches that have ended
	Last   *plan.Sub  // the last sub that fits, if subs are being taken
	LastNo int        // its number in the run

	subsOf []int // subs taken in the ended stretches of each run in the log
	Past   []RunRow
	Ahead  plan.Runs // after the present run, or from the instant of computing on

	sky *skyOfNight
}

// RunRow is one run of the table of the night, over, going on or planned.
type RunRow struct {
	plan.Span
	Target               string
	Open, Planned        bool
	StartAngle, EndAngle sky.Angle
	CameraAngle          sky.Angle
	Limit                plan.Limit
	Subs                 int
	RewindBefore         time.Duration // how long the way to its start took or will take; 0 if unknown
}

// For derives the facts of the night. The earlier Tonight, if any, lends what has not changed: the sky of
// the night, and the target's course when target and axis are the same.
func For(k kit.Kit, date plan.Date, log checklist.Night, now time.Time, earlier *Tonight) *Tonight {
	t := &Tonight{Kit: k, Log: log, Target: targetOf(k, log), Axis: axisOf(k, log)}
	if log.Axis != nil {
		t.Spread = log.Axis.Spread
	}
	t.inherit(date, earlier)
	t.followSubs()
	t.followRun(now)
	t.past(now)
	t.ahead(now)
	return t
}

func (t *Tonight) inherit(date plan.Date, earlier *Tonight) {
	if earlier != nil && earlier.Night.Date == date {
		t.Night, t.sky = earlier.Night, earlier.sky
	} else {
		t.Night = plan.NewNight(t.Kit, date)
		t.sky = newSkyOfNight(t.Night)
	}
	if earlier != nil && t.Night == earlier.Night && t.Axis == earlier.Axis && same(t.Spread, earlier.Spread) && t.Target.Star == earlier.Target.Star {
		t.Course, t.Windows, t.Dusk = earlier.Course, earlier.Windows, earlier.Dusk
		return
	}
	t.Course = t.Night.CourseWithin(t.Target, t.Axis, t.Spread)
	t.Windows = t.Course.Windows()
	t.Dusk = t.Course.Runs(t.Night.Span.From, nil, plan.NewSequence(t.Kit.Subs))
}

func same(a, b *plan.Spread) bool {
	return a == b || a != nil && b != nil && *a == *b
}

// targetOf returns what the night points at: as chosen last, or else the kit's first.
func targetOf(k kit.Kit, log checklist.Night) kit.Target {
	if log.Target == nil {
		return k.Targets[0]
	}
	for _, target := range k.Targets {
		if target.Name == log.Target.Name {
			return target
		}
	}
	return kit.Target{Name: log.Target.Name, Star: log.Target.Star}
}

// axisOf returns the axis as measured last this night, or else as the kit has it.
func axisOf(k kit.Kit, log checklist.Night) kit.Axis {
	if log.Axis == nil {
		return k.Axis
	}
	return kit.Axis{Tilt: log.Axis.Tilt, Toward: log.Axis.Toward, Uncertainty: log.Axis.Uncertainty}
}

// followSubs counts the subs in the stretches that have ended, each target's in a sequence of its own.
func (t *Tonight) followSubs() {
	t.Taken = plan.NewSequence(t.Kit.Subs)
	sequences := map[string]plan.Sequence{}
	for _, run := range t.Log.Runs {
		name := t.Target.Name
		if run.Target != nil {
			name = run.Target.Name
		}
		sequence, begun := sequences[name]
		if !begun {
			sequence = plan.NewSequence(t.Kit.Subs)
		}
		var inRun []plan.Sub
		for _, stretch := range run.Subs {
			progress := sequence.Progress(stretch.Start, stretch.End)
			sequence, inRun = progress.After, append(inRun, progress.Done...)
		}
		sequences[name] = sequence
		t.subsOf = append(t.subsOf, len(inRun))
		if name != t.Target.Name {
			continue
		}
		t.Taken = sequence
		if run.Open {
			t.InRun = inRun
		}
	}
}

// followRun finds the limit of the run that is going on and its last sub.
func (t *Tonight) followRun(now time.Time) {
	if !t.Log.DerotatorOn || t.Log.Anchor == nil {
		return
	}
	t.Anchor = &plan.Anchor{At: t.Log.Anchor.At, Angle: t.Log.Anchor.Angle}
	t.Limit = t.Course.Limit(*t.Anchor, t.Course.Span.To)
	t.CallBy = t.Course.LastSubBy(t.Limit, t.windowAt(now).To)
	if t.Log.Subs == nil {
		return
	}
	subs, _ := t.Taken.Run(t.Log.Subs.Start, t.CallBy)
	t.LastNo = len(t.InRun) + len(subs)
	if len(subs) > 0 {
		t.Last = &subs[len(subs)-1]
	}
}

// windowAt returns the window that t lies in, or the next one, or an empty one at the end of the night.
func (t *Tonight) windowAt(at time.Time) plan.Window {
	for _, w := range t.Windows {
		if at.Before(w.To) {
			return w
		}
	}
	end := t.Course.Span.To
	return plan.Window{Span: plan.Span{From: end, To: end}, ClosesBefore: plan.ByNight}
}

// Call returns when the operator must act on the present run: at the end of its last sub, or, if no subs
// are being taken, when the next could no longer be over in time; and whether that is a rewind, or else
// the end of the window. Without a run it is zero.
func (t *Tonight) Call(now time.Time) (at time.Time, rewind bool) {
	if t.Anchor == nil {
		return time.Time{}, false
	}
	rewind = t.Limit.Early.OK && t.CallBy.Before(t.windowAt(now).To)
	if t.Last != nil {
		return t.Last.Over, rewind
	}
	if t.Log.Subs != nil { // not one fitted
		return t.Log.Subs.Start, rewind
	}
	if next, _, ok := t.Taken.Next(now); ok {
		return t.CallBy.Add(-next.Over.Sub(now)), rewind
	}
	return t.CallBy, rewind
}

// ahead plans what follows the present run, or the whole rest if there is none.
func (t *Tonight) ahead(now time.Time) {
	from, sequence := now, t.Taken
	at := t.Log.Parked
	if t.Anchor != nil {
		subs, after := t.InThisRun(now)
		from, sequence = now, after
		if call, _ := t.Call(now); call.After(now) {
			from = call
		}
		if n := len(subs); n > 0 && t.Log.Subs == nil {
			from = subs[n-1].Over
		}
		angle := t.held(t.Course.Angle(*t.Anchor, from))
		at = &angle
	}
	t.Ahead = t.Course.Runs(from, at, sequence)
}

// InThisRun returns the subs that the present run still gives from now on, the one being taken
// included, and the sequence after them. When none are being taken they are thought to start now, or
// as soon as the target can be used.
func (t *Tonight) InThisRun(now time.Time) ([]plan.Sub, plan.Sequence) {
	if t.Log.Subs == nil {
		return t.Taken.Run(later(now, t.windowAt(now).From), t.CallBy)
	}
	p := t.Taken.Progress(t.Log.Subs.Start, now)
	start := p.Now.Over
	if p.Exposing {
		start = p.Now.Exposure.From
	}
	if p.Waiting { // all are taken
		return nil, p.After
	}
	return p.After.Run(start, t.CallBy)
}

// WorthTelling is the least loss of exposure that the night's answer speaks of: a sub or two.
const WorthTelling = 5 * time.Minute
