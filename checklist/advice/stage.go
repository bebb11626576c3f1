package advice

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
)

func (m *Moment) stage() Stage {
	if m.Subs != nil && m.Log.DerotatorOn && m.Anchor != nil {
		return m.whileExposing()
	}
	switch {
	case len(m.Windows) == 0:
		return NotUsable
	case !m.Now.Before(m.Windows[len(m.Windows)-1].To):
		return Over
	case !m.Log.DerotatorOn:
		return Off
	case m.Anchor == nil:
		return Adrift
	case m.Now.Before(m.Window.From):
		return Waiting
	case m.AtLimit():
		return PastLimit
	case m.Now.Before(m.Call.At):
		return Tracking
	case m.Call.For == plan.ForGoal:
		return Complete
	case m.Call.For == plan.ForLimit:
		return RewindDue
	}
	return m.beyondWindow()
}

// beyondWindow is the stage when no sub fits any more before the window closes: waiting for the next, or
// over.
func (m *Moment) beyondWindow() Stage {
	for _, w := range m.Windows {
		if w.From.After(m.Now) {
			m.Window = w
			return Waiting
		}
	}
	return Over
}

// Unusable tells whether subs are being taken while the target can't be used, and not for want of darkness
// only: behind the horizon profile, in the keyhole, too low. Another target's turn is advice, and counts only
// when it is time to hand over to it.
func (m Moment) Unusable() bool {
	w := m.Call.Window
	if _, due := m.HandOver(); w.OpensAfter == plan.ByTurn && !due {
		return false
	}
	return m.Subs != nil && m.Now.Before(w.From) && w.OpensAfter != plan.ByDarkness && w.OpensAfter != plan.ByNight
}

// whileExposing is the stage while subs are being taken. What they take after their window has closed is
// told, whatever it is.
func (m *Moment) whileExposing() Stage {
	last, any := m.Call.Last()
	switch {
	case m.Call.Window.To.IsZero() || !m.Now.Before(m.Call.Window.To):
		return Closed
	case m.AtLimit():
		return PastLimit
	case m.Unusable():
		return Closed
	case !m.Now.Before(m.Call.At) && m.Call.For == plan.ForGoal:
		return Complete
	case !m.Now.Before(m.Call.At) && m.Call.For == plan.ForLimit:
		return RewindDue
	case !m.Now.Before(m.Call.At):
		return Closed
	case any && !m.Now.Before(last.Exposure.From):
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
func (m Moment) Alarm() Alarm {
	switch m.Stage {
	case RewindDue, PastLimit, Closed:
		return Calling
	case Complete:
		if m.Subs != nil {
			return Calling
		}
	case Tracking, LastSub:
		if m.Until.Sub(m.Now) <= m.Kit.Alarm.WarnBefore && (m.Subs != nil || m.Call.Rewind()) {
			return Warning
		}
	}
	return Quiet
}
