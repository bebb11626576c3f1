package advice

import (
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// onLead is by how much the derotator is on before the first sub of a run: the time for framing, less where the night
// gives less by more than a minute because the stage has tracked for longer when the subs begin. It is then on by half
// of that time, by what the loop takes after a turn, or as the run begins.
func (d decider) onLead() time.Duration {
	next, most := d.next(), d.Kit.Mount.Frame
	if !next.OK || most <= 0 || d.begun() { // after a run the loop comes first, and the start moves on with the clock
		return most
	}
	stands := next.To
	if d.standsReady() {
		stands = *d.Log.Parked
	}
	// Where the run can begin at once it begins with the clock: it is asked for each minute, not for each second.
	begins := next.Begins.Truncate(time.Minute)
	asked := leadAsked{d.Course, begins.UnixNano(), stands}
	return d.kept.lead(asked, d.Taken, func() time.Duration { return d.bestLead(begins, stands) })
}

// bestLead is the longest lead that loses no more than a minute against the best of them.
func (d decider) bestLead(begins time.Time, stands sky.Angle) time.Duration {
	most := d.Kit.Mount.Frame
	window := d.WindowAfter(begins)
	if by := d.Course.LastSubBy(d.Course.Limit(plan.Anchor{At: begins.Add(-most), Angle: stands}, window.To), window.To); by.Equal(window.To) {
		return most // the window closes first, however early it is on
	}
	leads := []time.Duration{most, most / 2, min(most, d.Kit.Subs.AfterTurn()), 0}
	best, given := leads[0], d.givesOnAt(begins, leads[0], stands)
	for _, lead := range leads[1:] {
		if gives := d.givesOnAt(begins, lead, stands); gives > given+holdGains {
			best, given = lead, gives
		}
	}
	return best
}

// aRewindMore is what a lead must gain that needs a rewind more.
const aRewindMore = 2 * holdGains

// givesOnAt is what the night gives for a stage that tracks from an angle by a lead before a run begins, less what its
// rewinds must gain. What of the loop comes after that is lost where the lead is shorter.
func (d decider) givesOnAt(begins time.Time, lead time.Duration, stands sky.Angle) time.Duration {
	on := plan.Anchor{At: begins.Add(-lead), Angle: stands}
	lost := max(0, d.Kit.Subs.AfterTurn()-lead)
	s := d.Course.Schedule(plan.Start{At: on.At, Tracking: &on}, d.Taken)
	return s.Exposed() - lost - time.Duration(len(s.Rewinds))*aRewindMore
}
