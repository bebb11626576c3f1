package checklist

import (
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// Run is tracking from one rewind to the next: it begins when the derotator is on and its angle known,
// and ends with a rewind, with the derotator's turning off, or with another target.
type Run struct {
	Start      time.Time
	StartAngle sky.Angle
	Open       bool
	End        time.Time  // zero while the run is open
	EndAngle   *sky.Angle // nil while it is open, or if nobody read it
	Target     *Target    // nil if none was chosen
	Read       *Reading   // the latest reading in the run; nil if none
	Subs       []Subs     // finished stretches, oldest first
}

// Subs is a stretch of exposures through one filter.
type Subs struct {
	Filter string             // "" if nobody said
	Order  []plan.FilterCount // in which the filters come if nobody did; none where they take turns
	Start  time.Time
	End    time.Time // zero while they are being taken
}

// Known returns the instant and angle that the run's other angles are best counted from: its latest
// reading, or else its start. What was read holds for the whole run, since the stage tracked through it.
func (r Run) Known() (at time.Time, angle sky.Angle) {
	if r.Read != nil {
		return r.Read.At, r.Read.Angle
	}
	return r.Start, r.StartAngle
}

// Lasted returns how long the run took, until now if it is open; never negative.
func (r Run) Lasted(now time.Time) time.Duration {
	if r.Open {
		return max(0, now.Sub(r.Start))
	}
	return r.End.Sub(r.Start)
}

// Exposing returns for how long subs were taken in the run's finished stretches, pauses between them
// left out; overheads within a stretch are not.
func (r Run) Exposing() (total time.Duration) {
	for _, s := range r.Subs {
		total += s.End.Sub(s.Start)
	}
	return total
}

// OpenRun returns the run that is going on; ok is false if none is.
func (n Night) OpenRun() (run Run, ok bool) {
	if len(n.Runs) == 0 || !n.Runs[len(n.Runs)-1].Open {
		return Run{}, false
	}
	return n.Runs[len(n.Runs)-1], true
}

// beginRun opens a run at the anchor.
func (n *Night) beginRun() {
	n.Runs = append(n.Runs, Run{Start: n.Anchor.At, StartAngle: n.Anchor.Angle, Open: true, Target: n.Target})
	n.Readings, n.used = nil, true
}

// endRun closes the open run, if there is one, and with it the subs: no exposure goes on through a
// rewind.
func (n *Night) endRun(at time.Time, angle *sky.Angle) {
	n.endSubs(at)
	if _, open := n.OpenRun(); open {
		run := &n.Runs[len(n.Runs)-1]
		run.Open, run.End, run.EndAngle = false, at, angle
	}
	n.Readings, n.Anchor = nil, nil
}

// endSubs closes the stretch of subs. What of it lies in the open run counts there; subs taken while no
// angle was known belong to no run.
func (n *Night) endSubs(at time.Time) {
	if n.Subs == nil {
		return
	}
	if run, open := n.OpenRun(); open {
		done := *n.Subs
		if done.Start.Before(run.Start) {
			done.Start = run.Start
		}
		done.End = at
		last := &n.Runs[len(n.Runs)-1]
		last.Subs = append(last.Subs, done)
	}
	n.prove(KindSubsStopped, at)
	n.Subs = nil
}

// anchor notes the derotator's angle at an instant, and begins a run if none is open.
func (n *Night) anchor(at time.Time, angle sky.Angle, why Why) {
	n.Anchor = &Anchor{At: at, Angle: angle, Why: why}
	if _, open := n.OpenRun(); !open {
		n.beginRun()
	}
}
