package advice

import (
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// The turn is worth waiting for in the loop where the field turns much faster than it will when the run ends: the stage
// tracks from the turn on, before the first sub, and can't be turned to beyond its end to make up for that.
const (
	holdStep  = 30 * time.Second
	holdGains = time.Minute
)

// heldUntil returns until when the turn of a rewind is better held back; ok is false where it is best made now.
func (d decider) heldUntil() (until time.Time, ok bool) {
	run := d.afterLoop()
	if d.Kit.Derotator.StopsAnywhere && !d.atEnd(d.leading(run)) {
		return time.Time{}, false // it is turned back by what it tracks until the first sub
	}
	if run.TurnAt.After(d.Now.Add(time.Second)) {
		return run.TurnAt, true // the plan waits for the field to turn away from that end
	}
	if len(d.Ahead().Runs) != 1 { // what one run loses at its end the next has
		return time.Time{}, false
	}
	now := d.lastsTurnedAt(run, d.Now)
	most := now + holdGains
	for wait := holdStep; wait <= d.Kit.Subs.Loop; wait += holdStep {
		if lasts := d.lastsTurnedAt(run, d.Now.Add(wait)); lasts > most {
			until, most, ok = d.Now.Add(wait), lasts, true
		}
	}
	return until, ok
}

// longest is the angle of two from which a run lasts longer after a turn at once; the first if both do as well.
func (d decider) longest(a, b sky.Angle) sky.Angle {
	lasts := func(to sky.Angle) time.Time {
		from := d.Now.Add(d.Course.RewindTime(d.Angle, to))
		window := d.WindowAfter(from)
		return d.Course.LastSubBy(d.Course.Limit(plan.Anchor{At: from, Angle: to}, window.To), window.To)
	}
	if d.RewindNow().OK && lasts(b).After(lasts(a)) {
		return b
	}
	return a
}

// atEnd tells whether an angle is an end of the travel.
func (d decider) atEnd(angle sky.Angle) bool {
	return angle-d.Kit.Derotator.Min < ready || d.Kit.Derotator.Max-angle < ready
}

// lastsTurnedAt is what is left for subs of the run after a turn that begins at an instant, counted from now.
func (d decider) lastsTurnedAt(run Offer, at time.Time) time.Duration {
	from := at.Add(run.Takes)
	window := d.WindowAfter(from)
	run.Begins = later(run.Begins, from)
	to := run.To
	if d.Kit.Derotator.StopsAnywhere {
		to = d.leadingFrom(run, from)
	}
	limit := d.Course.Limit(plan.Anchor{At: from, Angle: to}, window.To)
	return d.Course.LastSubBy(limit, window.To).Sub(later(from.Add(d.Kit.Subs.AfterTurn()), window.From))
}
