package facts

import "duskhand/plan"

// Stage is what the derotator's night has come to.
type Stage int

// The stages.
const (
	NotUsable Stage = iota // no darkness, or the target is never usable tonight
	Over                   // the last window has closed, and nothing is being taken
	Off                    // the derotator is off
	Adrift                 // it is on, and nobody knows its angle
	Waiting                // it is on, and the target is not usable yet, or not just now
	Tracking               // it tracks; nothing to do
	LastSub                // the last sub that fits is being taken
	RewindDue              // the rewind must be made now
	PastLimit              // it has reached its limit in its window: the field turns
	Closed                 // the window has closed, and subs are still being taken
	Complete               // all the wanted subs are taken
	Doubtful               // the clock contradicts the journal, and nobody knows what time has passed
)

func (r *Run) stage() Stage {
	if r.Behind > 0 {
		return Doubtful
	}
	if r.Subs != nil && r.Log.DerotatorOn && r.Anchor != nil {
		return r.whileExposing()
	}
	switch {
	case len(r.Windows) == 0:
		return NotUsable
	case !r.Now.Before(r.Windows[len(r.Windows)-1].To):
		return Over
	case !r.Log.DerotatorOn:
		return Off
	case r.Anchor == nil:
		return Adrift
	case r.Now.Before(r.Window.From):
		return Waiting
	case r.AtLimit():
		return PastLimit
	case r.Now.Before(r.Call.At):
		return Tracking
	case r.Call.For == plan.ForGoal:
		return Complete
	case r.Call.For == plan.ForLimit:
		return RewindDue
	}
	return r.beyondWindow()
}

// beyondWindow is the stage when no sub fits any more before the window closes: waiting for the next, or
// over.
func (r *Run) beyondWindow() Stage {
	for _, w := range r.Windows {
		if w.From.After(r.Now) {
			r.Window = w
			return Waiting
		}
	}
	return Over
}

// Unusable tells whether subs are being taken while the target can't be used, and not for want of darkness
// only: behind the horizon profile, in the keyhole, too low. Another target's turn is advice, and counts only
// when it is time to hand over to it.
func (r Run) Unusable() bool {
	w := r.Call.Window
	if _, due := r.HandOver(); w.OpensAfter == plan.ByTurn && !due {
		return false
	}
	return r.Subs != nil && r.Now.Before(w.From) && w.OpensAfter != plan.ByDarkness && w.OpensAfter != plan.ByNight
}

// whileExposing is the stage while subs are being taken. What they take after their window has closed is
// told, whatever it is.
func (r *Run) whileExposing() Stage {
	last, any := r.Call.Last()
	switch {
	case r.Call.Window.To.IsZero() || !r.Now.Before(r.Call.Window.To):
		return Closed
	case r.AtLimit():
		return PastLimit
	case r.Unusable():
		return Closed
	case !r.Now.Before(r.Call.At) && r.Call.For == plan.ForGoal:
		return Complete
	case !r.Now.Before(r.Call.At) && r.Call.For == plan.ForLimit:
		return RewindDue
	case !r.Now.Before(r.Call.At):
		return Closed
	case any && !r.Now.Before(last.Exposure.From):
		return LastSub
	}
	return Tracking
}

// Alarm is how loud the state is: it rings when it grows.
type Alarm int

// The alarms.
const (
	Quiet Alarm = iota
	Warning
	Calling
)

// Alarm returns the alarm of the instant: a warning the kit's time before the operator must act, whatever
// for, and a call when it is due.
func (r Run) Alarm() Alarm {
	switch r.Stage {
	case RewindDue, PastLimit, Closed:
		return Calling
	case Doubtful:
		if r.Log.DerotatorOn {
			return Calling
		}
		return Warning
	case Complete:
		if r.Subs != nil {
			return Calling
		}
	case Tracking, LastSub:
		if r.Until.Sub(r.Now) <= r.Kit.Alarm.WarnBefore && (r.Subs != nil || r.Call.Rewind()) {
			return Warning
		}
	}
	return Quiet
}
