package plan

import (
	"math"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// layer lays the subs of a schedule's runs, one leg after the other.
type layer struct {
	*programme
	schedule *Schedule
	from     Start
	free     time.Time  // when the stage can begin to turn
	stage    *sky.Angle // where it stands then
	acted    bool       // something went on before: a rewind has its loop
}

func (l *layer) lay(legs []leg) {
	for k := range legs {
		if l.schedule.After.Done() {
			return
		}
		leg := &legs[k]
		if leg.tracking {
			l.goOn(leg)
			continue
		}
		anchor := l.begin(leg, k == len(legs)-1)
		if runs, after := l.runs(anchor, Span{anchor.At, anchor.At.Add(l.afterTurn())}, leg, l.course.Kit.Subs.Settle); len(runs) > 0 {
			l.turn(anchor)
			l.add(runs, after)
		}
	}
}

// goOn lays the run that is going on.
func (l *layer) goOn(leg *leg) {
	anchor := *l.from.Tracking
	settle := l.course.Kit.Subs.Settle
	if leg.reach.settled {
		settle = 0
	}
	angle := l.course.held(l.course.Angle(anchor, l.free))
	l.stage, l.acted = &angle, true
	l.add(l.runs(anchor, Span{l.free, l.free}, leg, settle))
}

// held keeps a computed angle within the travel: the stage stops at its limits.
func (c *Course) held(angle sky.Angle) sky.Angle {
	return max(c.Kit.Derotator.Min, min(angle, c.Kit.Derotator.Max))
}

// add takes up runs.
func (l *layer) add(runs []Run, after Sequence) {
	if len(runs) == 0 {
		return
	}
	last := runs[len(runs)-1]
	l.schedule.Runs = append(l.schedule.Runs, runs...)
	l.schedule.After = after
	for range runs {
		l.schedule.afters = append(l.schedule.afters, after)
	}
	l.free, l.stage, l.acted = last.To, &last.EndAngle, true
}

// turn takes up the rewind before a run.
func (l *layer) turn(to Anchor) {
	if l.stage == nil {
		return
	}
	turns, loop := l.course.RewindTime(*l.stage, to.Angle), l.beforeTurn()
	if turns+loop > 0 {
		span := Span{to.At.Add(-turns - loop), to.At}
		l.schedule.Rewinds = append(l.schedule.Rewinds, Rewind{span, turns, *l.stage, to.Angle})
	}
}

// beforeTurn is what of the loop comes before the next turn, afterTurn what comes after it: nothing about the first.
func (l *layer) beforeTurn() time.Duration {
	if l.acted {
		return l.course.Kit.Subs.BeforeTurn()
	}
	return 0
}

func (l *layer) afterTurn() time.Duration {
	if l.acted {
		return l.course.Kit.Subs.AfterTurn()
	}
	return 0
}

// begin returns where and when a leg begins: not before the rewind to it is over, and so that it lasts as long as it
// was planned to. The angle depends on when it is reached, and that on the angle: they are brought to agree, and the
// last word is the way's.
func (l *layer) begin(leg *leg, last bool) Anchor {
	planned := l.time(leg.from)
	start := planned
	if !leg.waits {
		start = l.soonest(sky.Angle(leg.angle))
	}
	angle := l.angle(leg, later(start, l.soonest(sky.Angle(leg.angle))), last)
	for range 20 { // each brings the two nearer by as much as the stage is faster than the field
		at := l.soonest(angle)
		if leg.waits {
			at = later(at, planned)
		}
		moved := at.Sub(start).Abs()
		if start = at; moved < time.Millisecond {
			break
		}
		angle = l.angle(leg, start, last)
	}
	return l.clearing(Anchor{later(start, l.soonest(angle)), angle}, leg)
}

// clearing moves a start at a limit on where the field of one axis turns away from it only then, which the grid is too
// coarse to see: by no more than is needed for the leg to last as long as it was planned to, but for that. Where the
// field is about to reverse that may be minutes.
func (l *layer) clearing(anchor Anchor, leg *leg) Anchor {
	const little, first, coarsely = 20 * time.Second, time.Second, time.Minute
	if l.ruled() {
		return anchor
	}
	until, planned := leg.reach.untilAt, l.time(leg.to)
	clears := func(wait time.Duration) bool {
		exit := l.course.early(Anchor{anchor.At.Add(wait), anchor.Angle}, until)
		return !exit.OK || exit.At.After(planned.Add(-little-wait))
	}
	most := max(5*time.Minute, planned.Sub(anchor.At)/2)
	early, wait := time.Duration(0), time.Duration(0)
	for !clears(wait) {
		early, wait = wait, 2*wait+first
		if wait > most {
			return anchor
		}
	}
	for wait-early > coarsely {
		if half := (early + wait) / 2; clears(half) {
			wait = half
		} else {
			early = half
		}
	}
	return Anchor{anchor.At.Add(wait), anchor.Angle}
}

// soonest returns when a run from an angle can begin: the stage has come there and a window is open, or opens before
// the rest of the loop is over.
func (l *layer) soonest(angle sky.Angle) time.Time {
	at := l.free
	if l.stage != nil {
		at = l.free.Add(l.course.RewindTime(*l.stage, angle) + l.beforeTurn())
	}
	for i, w := range l.programme.windows {
		if !at.Before(w.To) {
			continue
		}
		if i > 0 && l.programme.windows[i-1].chain == w.chain {
			return later(at, w.From)
		}
		return later(at, w.From.Add(-l.afterTurn()))
	}
	return at
}

// angle returns the angle from which a leg starts at an instant: of what serves up to its end, the nearest to the one
// planned, or for the last run to where the stage stands, to the tenth of a degree as scales are read.
func (l *layer) angle(leg *leg, start time.Time, last bool) sky.Angle {
	c, d := l.course, l.course.Kit.Derotator
	switch {
	case l.ruled() && !l.freeAt(start, leg):
		return l.wanted(start, sky.Angle(leg.angle))
	case !d.StopsAnywhere:
		return sky.Angle(leg.angle)
	}
	until := leg.reach.untilAt
	end := until
	if !leg.full || leg.to < leg.reach.until {
		end = earlier(until, l.time(leg.to).Add(d.Margin))
	}
	s, serves := c.swing(start, end, d.Travel(), 0)
	low, high := d.Min-s.low, d.Max-s.high
	if serves.Before(end) || high < low {
		return c.PlannedRun(start, until).Start
	}
	nearest := sky.Angle(leg.angle)
	switch {
	case last && l.stage != nil:
		nearest = *l.stage
	case last:
		nearest = (low + high) / 2
	}
	return tenthWithin(max(low, min(nearest, high)), low, high)
}

// tenthWithin returns an angle rounded to the tenth of a degree, within bounds; the angle itself where no tenth is.
func tenthWithin(angle, low, high sky.Angle) sky.Angle {
	const tenth = 0.1 * sky.Degree
	if angle == low && low == high {
		return angle
	}
	for _, rounded := range []sky.Angle{
		sky.Angle(math.Round(float64(angle/tenth))) * tenth, sky.Angle(math.Ceil(float64(angle/tenth))) * tenth, sky.Angle(math.Floor(float64(angle/tenth))) * tenth,
	} {
		if rounded >= low && rounded <= high {
			return rounded
		}
	}
	return angle
}

// freeAt tells whether the rule leaves the angle free at an instant: the one wanted can't be had there, or no sub
// fits it.
func (l *layer) freeAt(at time.Time, leg *leg) bool {
	if l.rule.Keep == kit.AlwaysKeep {
		return false
	}
	until := leg.reach.untilAt
	for _, reading := range l.course.startsWanted(at) {
		if l.course.From(Anchor{at, reading}, until).Until.Sub(at) >= l.course.leastRun() {
			return false
		}
	}
	return true
}

// wanted returns the reading nearest to one that gives the wanted camera angle at an instant; that one if none does.
func (l *layer) wanted(at time.Time, near sky.Angle) sky.Angle {
	best, off := near, sky.Angle(math.Inf(1))
	for _, reading := range l.course.startsWanted(at) {
		if away := (reading - near).Abs(); away < off {
			best, off = reading, away
		}
	}
	return best
}

// runs lays the subs of a leg that tracks from an anchor, from an instant on: in each window of its chain. No sub begins
// before the loop is over.
func (l *layer) runs(anchor Anchor, loop Span, leg *leg, settle time.Duration) (runs []Run, after Sequence) {
	c := l.course
	until := leg.reach.untilAt
	limit := c.Limit(anchor, until)
	by := c.LastSubBy(limit, until)
	if !leg.full {
		by = earlier(by, l.time(leg.to))
	}
	after = l.schedule.After
	for _, w := range l.programme.windows {
		window := Span{later(w.From, loop.From), earlier(w.To, by)}
		if w.until != leg.reach.until || !window.From.Before(window.To) {
			continue
		}
		var run Run
		wait := settle + max(0, loop.To.Sub(window.From))
		if run, after = c.runIn(anchor, window, limit, wait, after); len(run.Subs) > 0 {
			runs = append(runs, run)
		}
		settle = c.Kit.Subs.Settle
	}
	return runs, after
}

// worthwhile drops a last run that gains no more than a rewind is worth, once its subs are laid: the only one too, if
// a run has just ended. before is the sequence as it was then.
func (s *Schedule) worthwhile(worth time.Duration, between bool, before Sequence) {
	n := len(s.Rewinds)
	if n == 0 || len(s.Runs) < 2 && !between {
		return
	}
	rewind := s.Rewinds[n-1]
	kept := 0
	var gained time.Duration
	for _, run := range s.Runs {
		if run.From.Before(rewind.From) {
			kept++
		} else {
			gained += run.Exposed
		}
	}
	if gained > worth || kept == 0 && !between {
		return
	}
	after := before
	if kept > 0 {
		after = s.afters[kept-1]
	}
	s.Runs, s.Rewinds, s.After = s.Runs[:kept], s.Rewinds[:n-1], after
}
