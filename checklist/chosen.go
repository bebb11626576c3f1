package checklist

import "time"

// TargetSince returns when the present target was chosen; ok is false if none is.
func (n Night) TargetSince() (at time.Time, ok bool) {
	for i := len(n.marks) - 1; i >= 0 && n.Target != nil; i-- {
		if n.marks[i].by == KindTargetChosen {
			return n.marks[i].at, true
		}
	}
	return time.Time{}, false
}
