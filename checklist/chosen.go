package checklist

import "time"

// TargetSince returns when the present target was chosen, the last time if it was chosen anew: the telescope is sent
// there each time, but for a choice while subs are taken. ok is false if none is.
func (n Night) TargetSince() (at time.Time, ok bool) {
	return n.chosen, n.Target != nil && !n.chosen.IsZero()
}
