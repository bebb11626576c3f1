package facts

import (
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// Run is what the Run screen shows of one instant.
type Run struct {
	*Tonight
	Now   time.Time
	Stage Stage
	// Behind is by how much the clock lies behind what the journal has; 0 if it does not. Nobody knows then how long
	// anything has lasted.
	Behind time.Duration

	Place    sky.Horizontal // of the target, airless
	Climbing bool
	Moon     sky.Moon
	Window   plan.Window // that the run belongs to, or the next; empty after the last
	Call     plan.Call   // of the run; empty without one
	Until    time.Time   // what the answer counts down to

	Angle      sky.Angle // mechanical, if Anchor is known; held at a limit
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
	From   *sky.Angle // where the stage stands; nil if nobody knows
	To     sky.Angle
	Begins time.Time // when tracking would begin
	Lasts  time.Duration
	Takes  time.Duration // the turning itself
	Later  bool          // no sub fits a run that begins now; this is the first that one fits
	OK     bool          // false when nothing is left of the night for a run
}

// Count is how far one filter has come.
type Count struct {
	Filter        string
	Taken, Wanted int
}

// At derives the facts of an instant.
func (t *Tonight) At(now time.Time) Run {
	r := Run{Tonight: t, Now: now, Place: t.Course.Place(now), Moon: t.Night.Frame.Moon(now)}
	r.Climbing = t.Course.Place(now.Add(time.Minute)).Altitude > r.Place.Altitude
	r.Rate = t.Course.FieldRate(now) * sky.Rate(t.Kit.Derotator.Sense)
	r.Quickening = sky.Angle(t.Course.FieldRate(now.Add(time.Minute))).Abs() > sky.Angle(r.Rate).Abs()
	if t.Anchor != nil {
		r.Angle = t.held(t.Course.Angle(*t.Anchor, now))
	}
	r.Call, _ = t.Call(now)
	r.Window = r.Call.Window
	if r.Window.To.IsZero() {
		r.Window = t.windowAfter(now)
	}
	if by, ahead := t.Log.Ahead(now); ahead {
		r.Behind = by
	}
	r.followSubs()
	r.offer()
	r.Stage = r.stage()
	r.Until = r.Call.At
	switch r.Stage {
	case Off, Waiting, Adrift, Over, NotUsable, Doubtful:
		r.Until = r.Window.From
	}
	return r
}

// windowAfter returns the window that an instant lies in, or the next, or an empty one at the end of the
// night.
func (t *Tonight) windowAfter(at time.Time) plan.Window {
	if w, ok := plan.WindowFor(t.Windows, at); ok {
		return w
	}
	end := t.Course.Span.To
	return plan.Window{Span: plan.Span{From: end, To: end}, ClosesBefore: plan.ByNight}
}

func (r *Run) followSubs() {
	taken := r.Taken
	if r.Subs != nil {
		r.Progress = r.Tonight.subs.Follow(r.going, *r.Subs, r.Now)
		r.SubNo = len(r.InRun) + len(r.Progress.Done)
		if r.Progress.Exposing {
			r.SubNo++
		}
		if !r.Tonight.subs.Watched() {
			taken = r.Progress.After
		}
	}
	for i, n := range taken.Taken() {
		if filter := r.Course.Kit.Subs.Filters[i]; filter.Count > 0 || n > 0 {
			r.Counts = append(r.Counts, Count{filter.Name, n, filter.Count})
		}
	}
	r.SubsLeft = r.Tonight.SubsLeft(r.Now)
}

// offer finds the run that a rewind would buy from now on, in this window or a later one. What of the
// present stretch of subs is taken by then counts as taken.
func (r *Run) offer() {
	switch {
	case r.Anchor != nil:
		angle := r.Angle
		r.Offer.From = &angle
	case r.Log.Parked != nil:
		r.Offer.From = r.Log.Parked
	}
	sequence := r.Taken
	if r.Subs != nil {
		sequence, _ = r.Progress.After.Only("")
	}
	for _, w := range r.Windows {
		begin := later(r.Now, w.From)
		next, ok := r.Course.NextRun(r.Offer.From, r.Now, plan.Span{From: begin, To: w.To}, sequence)
		if !ok {
			continue
		}
		r.Offer.To = next.Run.StartAngle
		r.Offer.Begins, r.Offer.Takes, r.Offer.OK = next.Run.From, next.Rewind.Length(), true
		r.Offer.Lasts = r.Course.From(plan.Anchor{At: next.Run.From, Angle: r.Offer.To}, w.To).Until.Sub(next.Run.From)
		r.Offer.Later = next.Run.From.Sub(begin) > r.Offer.Takes+time.Minute
		return
	}
}

// ready is how near to the best start a stage that is off may stand to be left there.
const ready = 0.2 * sky.Degree

// StandsReady tells whether the stage, while it is off, is known to stand where the best run starts.
func (r Run) StandsReady() bool {
	return r.Log.Parked != nil && r.Offer.OK && (*r.Log.Parked-r.Offer.To).Abs() < ready
}

// AtLimit tells whether the stage stands at a limit and can't follow.
func (r Run) AtLimit() bool {
	return r.Anchor != nil && r.Call.Limit.At.OK && !r.Now.Before(r.Call.Limit.At.At)
}

// LookAgain returns when the operator should next look if nothing needs doing until then: the kit's
// warning time before the call, to the minute before; ok is false when that is now.
func (r Run) LookAgain() (at time.Time, ok bool) {
	at = r.Until.Add(-r.Kit.Alarm.WarnBefore).Truncate(time.Minute)
	return at, at.After(r.Now)
}

// SubsStopped tells that subs are said to be taken, that frames came and no more do: two should have by the kit's
// times. since is when the first of them should have begun.
func (r Run) SubsStopped() (since time.Time, ok bool) {
	if r.Subs == nil || !r.Tonight.subs.Watched() || !r.Progress.Waiting || r.Progress.After.Done() || !r.Now.After(r.Subs.Start) {
		return time.Time{}, false
	}
	return r.Subs.Start, true
}
