package advice

import (
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/plan"
)

// stowing is the stage of the checklist after the last run.
const stowing checklist.Stage = "stow"

// stow: nothing is left of the night.
func (d decider) stow() (Advice, bool) {
	if !d.nothingLeft() {
		return Advice{}, false
	}
	a := Advice{Do: Stow, Why: d.whyNothing()}
	a.Step, a.Offer = d.stowOffer()
	return a, true
}

// nothingLeft tells that no run can begin any more tonight, on any target, and none goes on.
func (d decider) nothingLeft() bool {
	if d.Log.Subs != nil || d.standsWell() && d.Window.Length() > 0 {
		return false
	}
	_, more := d.following()
	return !more && !d.next().OK
}

func (d decider) whyNothing() Why {
	if d.Taken.Done() {
		return GoalReached
	}
	return NothingLeft
}

// stowOffer is the next thing of the stow stage that the one key can say; nothing before there was anything to stow.
func (d decider) stowOffer() (step string, offer checklist.Action) {
	if d.Log.Guiding.On {
		return "", checklist.GuidingOff{}
	}
	if d.Log.DerotatorOn {
		return "", checklist.TurnOff{}
	}
	if d.Log.DerotatorSince.IsZero() {
		return "", nil
	}
	for _, s := range d.Tonight.asked.of(d.list, d.Log) { // whoever has ticked nothing so far is led through this all the same
		if s.Stage == stowing && s.State == checklist.Open && !slices.Contains(s.DoneBy, checklist.ProofRunsOver) {
			return s.ID, d.stepOffer(s)
		}
	}
	return "", nil
}

// wait: nothing can or need be done. It says until when, and what for.
func (d decider) wait() (Advice, bool) {
	a := Advice{Do: Wait, Why: NothingToDo, Target: d.Target.Name}
	if d.Log.Subs != nil {
		a.Why, a.By = d.whyEnds(), at(d.Call.At)
		return a, true
	}
	if d.Log.Cloud != nil {
		a.Why = Cloud
		return a, true
	}
	_, from, _ := d.stepOrWait()
	begins := d.onFrom()
	switch {
	case d.Anchor != nil && d.pauseGains() >= d.Kit.Subs.WorthARewind:
		begins = d.pauseFrom()
	case d.Anchor != nil && d.servesLater():
		begins = d.loopFrom()
	case d.Anchor != nil:
		begins = d.Window.From
	}
	switch {
	case !from.IsZero() && (from.Before(begins) || !d.next().OK):
		a.Why, a.From = d.whyShut(plan.ByDarkness), at(from)
	case d.next().OK && d.next().Later && d.Now.After(d.Window.From):
		a.Why, a.From = d.whyShut(d.boundBefore()), at(d.loopFrom())
		if d.Anchor == nil && !d.begun() { // it is turned on before that, to frame
			a.From = at(begins)
		}
		if now := d.RewindNow(); now.OK && !now.Later && now.Begins.Before(d.Window.To) { // a run could begin, and the night is better without
			a.Why = NothingToDo
		}
	case d.next().OK && d.Anchor != nil && begins.After(d.Window.From):
		a.Why, a.From = NothingToDo, at(begins)
	case d.next().OK || d.Anchor != nil:
		a.Why, a.From = d.whyShut(d.Window.OpensAfter), at(begins)
	}
	if a.From != nil && !a.From.After(d.Now) {
		a.Why, a.From = d.waitsFor()
	}
	if d.onlyUncertain(a.From) {
		a.Why = TiltUnknown
	}
	return a, true
}

// onlyUncertain tells that nothing is exposed from now to the end of a wait because the axis is not known better: as it
// is believed to be, a run could go on.
func (d decider) onlyUncertain(until *time.Time) bool {
	s := d.Ahead()
	return slices.ContainsFunc(slices.Concat(s.Gaps, s.Waits), func(i plan.Idle) bool {
		return i.OnlyUncertain() && !d.Now.Before(i.From) && d.Now.Before(i.To) && (until == nil || !until.After(i.To))
	})
}

// waitsFor is what is waited for when what comes before it has been done or has passed: the window, or the next run.
func (d decider) waitsFor() (Why, *time.Time) {
	switch next := d.next(); {
	case d.Now.Before(d.Window.From):
		return d.whyShut(d.Window.OpensAfter), at(d.Window.From)
	case next.OK && d.Now.Before(next.Begins):
		begins := next.Begins.Add(-next.Takes - d.Kit.Subs.BeforeTurn())
		if !d.Now.Before(begins) {
			begins = next.Begins
		}
		return d.whyShut(d.boundBefore()), at(begins)
	}
	return NothingToDo, nil
}

// boundBefore is what keeps the next run from beginning now.
func (d decider) boundBefore() plan.Bound {
	for _, w := range d.Windows {
		if w.From.After(d.Now) {
			return w.OpensAfter
		}
	}
	return plan.ByDerotatorRate
}
