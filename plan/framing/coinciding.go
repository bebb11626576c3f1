package framing

import (
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// waitStep is how finely a later start is tried while no reading gives the angle.
const waitStep = 2 * time.Minute

// CoincidingRuns plans the night from an instant on so that all frames cover the same sky: every run has the
// camera angle wanted (of date) or one that differs by a multiple of alike. Where no reading within the
// travel gives one it waits: with less travel than alike for most of the night, and the sum of exposures
// says what that costs. A nil wanted takes the angle of the longest first run.
//
// at is where the derotator stands, nil when nobody knows. A stage that stops only at its ends reaches few
// angles, and most often none.
func CoincidingRuns(c *plan.Course, from time.Time, at *sky.Angle, wanted *sky.Angle, alike sky.Angle, sequence plan.Sequence) plan.Runs {
	p := coinciding{Course: c, alike: alike, at: at, free: from, wanted: wanted}
	p.planned = plan.Runs{Windows: c.Windows(), After: sequence}
	for _, window := range p.planned.Windows {
		if window.From.Before(from) {
			window.From = from
		}
		if window.From.Before(window.To) {
			p.fill(window)
		}
	}
	return p.planned
}

type coinciding struct {
	*plan.Course
	alike   sky.Angle
	wanted  *sky.Angle
	at      *sky.Angle // where the stage stands
	free    time.Time  // when it can begin to turn
	planned plan.Runs
}

func (p *coinciding) fill(window plan.Window) {
	for now := window.From; now.Before(window.To) && !p.planned.After.Done(); {
		if p.wanted == nil {
			angle := p.CameraAngle(p.PlannedRun(now, window.To).Start, now)
			p.wanted = &angle
		}
		run, after := p.next(plan.Span{From: now, To: window.To})
		if len(run.Subs) == 0 {
			now = now.Add(waitStep)
			continue
		}
		if p.at != nil && run.StartAngle != *p.at {
			start := run.From.Add(-p.RewindTime(*p.at, run.StartAngle))
			p.planned.Rewinds = append(p.planned.Rewinds,
				plan.Rewind{Span: plan.Span{From: start, To: run.From}, FromAngle: *p.at, ToAngle: run.StartAngle})
		}
		p.planned.Runs = append(p.planned.Runs, run)
		p.planned.After, p.at, p.free, now = after, &run.EndAngle, run.To, run.To
	}
}

// next returns the run from the reading that lasts longest, as early in span as the stage gets there.
func (p *coinciding) next(span plan.Span) (best plan.Run, after plan.Sequence) {
	for _, first := range readingsFor(p.Course, *p.wanted, p.alike, span.From) {
		start, reading := p.reach(first, span.From)
		if !start.Before(span.To) || !reachable(p.Kit.Derotator, reading) {
			continue
		}
		run, then := p.RunFrom(plan.Anchor{At: start, Angle: reading}, span.To, p.planned.After)
		if run.To.After(best.To) {
			best, after = run, then
		}
	}
	return best, after
}

// reach returns when the stage can be at the reading that gives the angle, and what that reading is by then:
// the field turns while the stage does. Two rounds settle it, since the stage is a hundred times faster.
func (p *coinciding) reach(first sky.Angle, earliest time.Time) (start time.Time, reading sky.Angle) {
	start, reading = earliest, first
	if p.at == nil {
		return start, reading
	}
	for range 2 {
		start = p.free.Add(p.RewindTime(*p.at, reading))
		if start.Before(earliest) {
			start = earliest
		}
		reading = p.Angle(plan.Anchor{At: earliest, Angle: first}, start)
	}
	return start, reading
}
