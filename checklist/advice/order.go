package advice

import (
	"time"

	"duskhand/plan"
)

// order lays the order of what is left while no subs are being taken: those that go on have the order that they were
// begun with.
func (t *Tonight) order() {
	if t.Subs == nil {
		t.Taken = t.Taken.InOrder(t.orderOf(t.Taken, t.now))
	}
}

// orderOf returns the order in which what a sequence still wants is worth most from an instant on; none where the
// kit's filters take turns.
func (t *Tonight) orderOf(sequence plan.Sequence, now time.Time) []plan.FilterCount {
	if t.worth == nil { // spares a schedule
		return nil
	}
	sequence = sequence.InOrder(nil)
	if t.Anchor != nil {
		return t.Course.Schedule(plan.Start{At: now, Tracking: t.Anchor}, sequence).Order()
	}
	return t.kept.schedule(t.Course, plan.Start{At: now, Stage: t.Log.Parked, Between: t.begun()}, sequence).Order()
}
