package plan

import "time"

// Reason is why the operator must act at the end of a run.
type Reason int

// The reasons.
const (
	ForLimit  Reason = iota // the derotator must be rewound
	ForWindow               // the target can't be used any longer
	ForGoal                 // all the wanted subs are taken
)

// Call is when the operator must act on a run that is going on, and why.
type Call struct {
	Window Window // that the run belongs to
	Limit  Limit  // of the run, looked for to the window's end
	By     time.Time
	At     time.Time
	For    Reason
	Subs   []Sub    // those of the stretch being taken that fit, from its first
	After  Sequence // the sequence after them
}

// Last returns the last sub that fits; ok is false if none does, or none are being taken.
func (c Call) Last() (sub Sub, ok bool) {
	if len(c.Subs) == 0 {
		return Sub{}, false
	}
	return c.Subs[len(c.Subs)-1], true
}

// Rewind tells whether the call is for a rewind.
func (c Call) Rewind() bool { return c.For == ForLimit }

// WindowFor returns the window that subs taken since an instant belong to: the one that the instant lies
// in, or the next. ok is false after the last.
func WindowFor(windows []Window, at time.Time) (window Window, ok bool) {
	for _, w := range windows {
		if at.Before(w.To) {
			return w, true
		}
	}
	return Window{}, false
}

// CallWhile returns the call of a run that tracks from anchor on while subs are being taken since an
// instant: at the end of the last that fits before the early bound less the margin, before the window that
// they were begun in closes, and within what is wanted. When none fits, it was at once.
//
// ok is false when the subs were begun after the last window.
func (c *Course) CallWhile(windows []Window, anchor Anchor, since time.Time, sequence Sequence) (call Call, ok bool) {
	call, ok = c.callIn(windows, anchor, since)
	if !ok {
		return Call{}, false
	}
	call.Subs, call.After = sequence.Run(since, call.By)
	complete := call.After.Done()
	if wanted, some := sequence.lacking(); some && len(call.Subs) >= wanted {
		call.Subs, call.After, complete = call.Subs[:wanted], sequence.upTo(call.Subs[:wanted]), true
	}
	call.At = since
	if last, any := call.Last(); any {
		call.At = last.Over
	}
	if complete {
		call.For = ForGoal
	}
	return call, true
}

// CallBefore returns the call of a run that tracks from anchor on while no subs are being taken, at the
// instant now: when the next sub could no longer be over in time. Subs that would fit from now on are
// those of the call.
//
// ok is false after the last window.
func (c *Course) CallBefore(windows []Window, anchor Anchor, now time.Time, sequence Sequence) (call Call, ok bool) {
	call, ok = c.callIn(windows, anchor, now)
	if !ok {
		return Call{}, false
	}
	start := now
	if start.Before(call.Window.From) {
		start = call.Window.From
	}
	call.Subs, call.After = sequence.Run(start, call.By)
	call.At = call.By
	next, _, wanted := sequence.Next(now)
	switch {
	case !wanted:
		call.At, call.For = now, ForGoal
	default:
		call.At = call.By.Add(-next.Over.Sub(now))
	}
	return call, true
}

// callIn finds window and limit. The limit is looked for from where the stage was anchored, which may be
// long before the window.
func (c *Course) callIn(windows []Window, anchor Anchor, at time.Time) (Call, bool) {
	window, ok := WindowFor(windows, at)
	if !ok {
		return Call{}, false
	}
	call := Call{Window: window, For: ForWindow}
	call.Limit = c.Limit(anchor, window.To)
	call.By = c.LastSubBy(call.Limit, window.To)
	if call.By.Before(window.To) {
		call.For = ForLimit
	}
	return call, true
}
