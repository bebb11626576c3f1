package advice

import (
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/sky"
)

// moveAway: the target comes to the ceiling soon, by its early bound, and something is in the telescope's way there.
// The telescope follows its target until the derotator is said to be off, which is what ends this advice.
func (d decider) moveAway() (Advice, bool) {
	if !d.Kit.Mount.CeilingStops || d.Anchor == nil {
		return Advice{}, false
	}
	reached := d.ceiling()
	if !reached.OK || d.Now.Before(reached.At.Add(-d.Kit.Mount.CeilingWarn)) {
		return Advice{}, false
	}
	a := Advice{Do: MoveAway, Why: Ceiling, Target: d.Target.Name, By: at(reached.At)}
	a.Step, a.Offer = d.offOffer()
	return a, true
}

// offOffer is what the one key says on the way to driving off: the subs stopped, guiding stopped, the derotator off.
func (d decider) offOffer() (step string, offer checklist.Action) {
	if d.Log.Subs != nil {
		return "", checklist.StopSubs{}
	}
	if step, offer, open := d.guidingToStop(); open {
		return step, offer
	}
	return "", checklist.TurnOff{}
}

// guidingToStop is the loop's step of stopping guiding, while it is open: also before guiding has been said to be on.
func (d decider) guidingToStop() (step string, offer checklist.Action, open bool) {
	for _, s := range d.asked {
		if s.Stage == again && slices.Contains(s.DoneBy, checklist.KindGuidingOff) {
			return s.ID, d.stepOffer(s), true
		}
	}
	return "", nil, false
}

// ceiling is when the target comes to the ceiling at the earliest, in the window that is open or that has closed so;
// not OK if it does not, or is past it by now.
func (d decider) ceiling() sky.Event {
	for i, w := range d.Windows {
		opens := d.Course.Span.To
		if i+1 < len(d.Windows) {
			opens = d.Windows[i+1].From
		}
		if w.ClosesBefore == plan.ByKeyhole && w.Ceiling.Early.OK && d.Now.Before(opens) && !d.Now.Before(w.From.Add(-time.Hour)) {
			return w.Ceiling.Early
		}
	}
	return sky.Event{}
}
