package advice

import (
	"sync"
	"time"

	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/sky"
)

// Run is what the Run screen shows of one instant.
type Moment struct {
	*Tonight
	Now time.Time
	// Behind is by how much the clock lies behind what the journal has; 0 if it does not. Nobody knows then how long
	// anything has lasted.
	Behind time.Duration

	Place    sky.Horizontal // of the target, airless
	Climbing bool
	Moon     sky.Moon
	Window   plan.Window // that the run belongs to, or the next; empty after the last
	Call     plan.Call   // of the run; empty without one

	Angle      sky.Angle  // mechanical, if Anchor is known; held at a limit
	Rate       sky.Rate   // of the mechanical angle, its sign included
	Quickening bool       // the rate grows in size
	Stands     *sky.Angle // where the stage stands; nil if nobody knows

	Progress plan.Progress // if subs are being taken
	SubNo    int           // number in the run of the sub under way
	Counts   []Count
	Early    int // subs of the target that count apart: taken while it was not dark

	rewindNow func() Offer
}

// Offer is a rewind, or the first turn to the start, and the run it buys.
type Offer struct {
	From   *sky.Angle // where the stage stands; nil if nobody knows
	To     sky.Angle
	Begins time.Time     // when tracking would begin
	Lasts  time.Duration // to the end of its last sub, when the person must act, as Call.At has it once it goes on
	Takes  time.Duration // the turning itself
	Later  bool          // no sub fits a run that begins now; this is the first that one fits
	TurnAt time.Time     // when the turn is to be made, where the plan waits with it; zero where it does not
	OK     bool          // false when nothing is left of the night for a run
}

// Count is how far one filter has come.
type Count struct {
	Filter        string
	Taken, Wanted int
}

// At derives the facts of an instant.
func (t *Tonight) At(now time.Time) Moment {
	m := Moment{Tonight: t, Now: now, Place: t.Course.Place(now), Moon: t.Night.Frame.Moon(now)}
	m.Climbing = t.Course.Place(now.Add(time.Minute)).Altitude > m.Place.Altitude
	m.Rate = t.Course.FieldRate(now) * sky.Rate(t.Kit.Derotator.Sense)
	m.Quickening = sky.Angle(t.Course.FieldRate(now.Add(time.Minute))).Abs() > sky.Angle(m.Rate).Abs()
	m.Stands = t.Log.Parked
	if t.Anchor != nil {
		m.Angle = t.Held(t.Course.Angle(*t.Anchor, now))
		m.Stands = angleOf(m.Angle)
	}
	m.Call, _ = t.Call(now)
	m.Window = m.Call.Window
	if m.Window.To.IsZero() {
		m.Window = t.WindowAfter(now)
	}
	if by, ahead := t.Log.Ahead(now); ahead {
		m.Behind = by
	}
	m.followSubs()
	m.rewindNow = sync.OnceValue(m.findRewindNow)
	return m
}

// SubsLeft is the exposure that the night still gives by the plan.
func (m Moment) SubsLeft() time.Duration { return m.Tonight.SubsLeft(m.Now) }

// RewindNow is what a rewind at once would buy.
func (m Moment) RewindNow() Offer { return m.rewindNow() }

// WindowAfter returns the window that an instant lies in, or the next, or an empty one at the end of the
// night.
func (t *Tonight) WindowAfter(at time.Time) plan.Window {
	if w, ok := plan.WindowFor(t.Windows, at); ok {
		return w
	}
	end := t.Course.Span.To
	return plan.Window{Span: plan.Span{From: end, To: end}, ClosesBefore: plan.ByNight}
}

func (m *Moment) followSubs() {
	taken := m.Taken
	for i, run := range m.Log.Runs {
		if tally.Chosen(m.Kit, m.Log, run.Target).Name == m.Target.Name {
			m.Early += m.Tonight.subs.Early[i]
		}
	}
	if m.Subs != nil {
		m.Progress = m.Tonight.subs.Follow(m.going, *m.Subs, m.Now)
		m.SubNo = len(m.InRun) + len(m.Progress.Done)
		if m.Progress.Exposing {
			m.SubNo++
		}
		if _, early := m.countedApart(m.Progress.Done); !m.Tonight.subs.Watched() {
			m.Early += early
			taken = m.Progress.After
		}
	}
	for i, n := range taken.Taken() {
		if filter := m.Course.Kit.Subs.Filters[i]; filter.Count > 0 || n > 0 {
			m.Counts = append(m.Counts, Count{filter.Name, max(0, n), filter.Count})
		}
	}
}

// findRewindNow finds the run that a rewind would buy from now on, in this window or a later one. What of the
// present stretch of subs is taken by then counts as taken.
func (m Moment) findRewindNow() Offer {
	o := Offer{From: m.Stands}
	sequence := m.SequenceFromNow()
	for _, w := range m.Windows {
		begin := later(m.Now, w.From)
		next, ok := m.Course.NextRun(o.From, m.Now, plan.Span{From: begin, To: w.To}, sequence)
		if !ok {
			continue
		}
		o.To, o.Begins, o.Takes, o.OK = next.Run.StartAngle, next.Run.From, next.Rewind.Length(), true
		o.Lasts = next.Run.Length()
		o.Later = next.Run.From.Sub(begin) > o.Takes+time.Minute
		break
	}
	return o
}

// ready is how near to the best start a stage that is off may stand to be left there.
const ready = 0.2 * sky.Degree

// AtLimit tells whether the stage stands at a limit and can't follow.
func (m Moment) AtLimit() bool {
	return m.Anchor != nil && m.Call.Limit.At.OK && !m.Now.Before(m.Call.Limit.At.At)
}

// SubsStopped tells that subs are said to be taken, that frames came and no more do: two should have by the kit's
// times. since is when the first of them should have begun.
func (m Moment) SubsStopped() (since time.Time, ok bool) {
	if m.Subs == nil || !m.Tonight.subs.Watched() || !m.Progress.Waiting || m.Progress.After.Done() || !m.Now.After(m.Subs.Start) {
		return time.Time{}, false
	}
	return m.Subs.Start, true
}

// SequenceFromNow returns where the target's subs stand at the instant, those of the stretch going on included.
func (m Moment) SequenceFromNow() plan.Sequence {
	if m.Subs == nil {
		return m.Taken
	}
	sequence, _ := m.Progress.After.Only("")
	return sequence.Taking()
}

// IsOver tells that the target's last window of the night is behind, or that it never had one.
func (m Moment) IsOver() bool {
	n := len(m.Windows)
	return n == 0 || !m.Now.Before(m.Windows[n-1].To)
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
