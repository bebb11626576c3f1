package facts

import (
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// Stage is what the derotator's night has come to.
type Stage int

// The stages.
const (
	NotUsable Stage = iota // no darkness, or the target is never usable tonight
	Over                   // the last window has closed
	Off                    // the derotator is off
	Adrift                 // it is on, and nobody knows its angle
	Waiting                // it is on, and the target is not usable yet, or not just now
	Tracking               // it tracks; nothing to do
	LastSub                // the last sub that fits is being taken
	RewindDue              // the rewind must be made now
	PastLimit              // it has reached its limit: the field turns
)

// Run is what the Run screen shows of one instant.
type Run struct {
	*Tonight
	Now   time.Time
	Stage Stage

	Place    sky.Horizontal // of the target, airless
	Climbing bool
	Moon     sky.Moon
	Window   plan.Window // the one that now lies in, or the next; empty at the end of the night
	Until    time.Time   // what the answer counts down to
	Rewind   bool        // whether Until is a rewind, and not the end of the window

	Angle      sky.Angle // mechanical, if Anchor is known
	Rate       sky.Rate  // of the mechanical angle, its sign included
	Quickening bool      // the rate grows in size
	Offer      Offer     // what a rewind would buy

	Progress plan.Progress // if subs are being taken
	SubNo    int           // number in the run of the sub under way
	Counts   []Count
	SubsLeft time.Duration // of exposure that the night still gives by the plan
}

// Offer is a rewind, or the first turn to the start, and the run it buys.
type Offer struct {
	From    *sky.Angle // where the stage stands; nil if nobody knows
	To      sky.Angle
	Begins  time.Time // when tracking would begin
	Lasts   time.Duration
	Takes   time.Duration // the turning itself
	Whether bool          // false when nothing is left of the night for a run
}

// Count is how far one filter has come.
type Count struct {
	Filter        string
	Taken, Wanted int
}

// At derives the facts of an instant.
func (t *Tonight) At(now time.Time) Run {
	r := Run{Tonight: t, Now: now, Place: t.Course.Place(now), Window: t.windowAt(now), Moon: t.Night.Frame.Moon(now)}
	r.Climbing = t.Course.Place(now.Add(time.Minute)).Altitude > r.Place.Altitude
	r.Rate = t.Course.FieldRate(now) * sky.Rate(t.Kit.Derotator.Sense)
	r.Quickening = sky.Angle(t.Course.FieldRate(now.Add(time.Minute))).Abs() > sky.Angle(r.Rate).Abs()
	if t.Anchor != nil {
		r.Angle = t.Course.Angle(*t.Anchor, now)
		r.Until, r.Rewind = t.Call(now)
	}
	r.followSubs()
	r.offer()
	r.Stage = r.stage()
	if r.Anchor == nil || r.Stage == Waiting {
		r.Until, r.Rewind = r.Window.From, false
	}
	return r
}

func (r *Run) followSubs() {
	taken := r.Taken
	if r.Log.Subs != nil {
		r.Progress = r.Taken.Progress(r.Log.Subs.Start, r.Now)
		r.SubNo = len(r.InRun) + len(r.Progress.Done)
		if r.Progress.Exposing {
			r.SubNo++
		}
		taken = r.Progress.After
	}
	for i, n := range taken.Taken() {
		filter := r.Kit.Subs.Filters[i]
		r.Counts = append(r.Counts, Count{filter.Name, n, filter.Count})
	}
	r.SubsLeft = r.Ahead.Exposed()
	if r.Anchor == nil {
		return
	}
	subs, _ := r.InThisRun(r.Now)
	for _, sub := range subs {
		r.SubsLeft += max(0, sub.Exposure.To.Sub(later(sub.Exposure.From, r.Now)))
	}
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// offer finds the run that a rewind would buy now, or at the next window's opening.
func (r *Run) offer() {
	begin := later(r.Now, r.Window.From)
	if !begin.Before(r.Window.To) {
		return
	}
	switch {
	case r.Anchor != nil:
		angle := r.held(r.Angle)
		r.Offer.From = &angle
	case r.Log.Parked != nil:
		r.Offer.From = r.Log.Parked
	}
	start, stretch := r.Course.RewindFrom(r.Offer.From, begin, r.Window.To)
	if !start.Before(r.Window.To) {
		return
	}
	r.Offer = Offer{From: r.Offer.From, To: stretch.Start, Begins: start, Lasts: stretch.Until.Sub(start), Takes: start.Sub(begin), Whether: true}
}

func (r *Run) stage() Stage {
	switch {
	case len(r.Windows) == 0:
		return NotUsable
	case !r.Now.Before(r.Windows[len(r.Windows)-1].To):
		return Over
	case !r.Log.DerotatorOn:
		return Off
	case r.Anchor == nil:
		return Adrift
	case r.Limit.At.OK && !r.Now.Before(r.Limit.At.At):
		return PastLimit
	case r.Rewind && !r.Now.Before(r.Until):
		return RewindDue
	case r.Rewind && r.Last != nil && !r.Now.Before(r.Last.Exposure.From):
		return LastSub
	case r.Now.Before(r.Window.From) && r.Log.Subs == nil:
		return Waiting
	}
	return Tracking
}

// LookAgain returns when the operator should next look if nothing needs doing until then: the kit's
// warning time before the call, to the minute before.
func (r Run) LookAgain() time.Time {
	at := r.Until.Add(-r.Kit.Alarm.WarnBefore).Truncate(time.Minute)
	return at
}

// Alarm is how loud the state is: it rings when it grows.
type Alarm int

// The alarms.
const (
	Quiet Alarm = iota
	Warning
	Calling
)

// Alarm returns the alarm of the instant.
func (r Run) Alarm() Alarm {
	switch r.Stage {
	case RewindDue, PastLimit:
		return Calling
	case Tracking, LastSub:
		if r.Rewind && r.Until.Sub(r.Now) <= r.Kit.Alarm.WarnBefore {
			return Warning
		}
	}
	return Quiet
}
