package advice

import (
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/share"
)

// changeRun: the last sub of the run is over. The next run comes after a rewind, or on another target.
func (d decider) changeRun() (Advice, bool) {
	if d.Log.Subs != nil && d.Now.Before(d.Call.At) || d.Log.DerotatorOn && d.Anchor == nil {
		return Advice{}, false
	}
	if next, ok := d.following(); ok && d.handsOver() {
		return d.handOver(next), true
	}
	if other, ok := d.another(); ok {
		return d.goOn(other), true
	}
	if d.Anchor == nil || !d.rewindDue() {
		return Advice{}, false
	}
	to := d.next().To
	if d.Kit.Derotator.StopsAnywhere && d.Log.Subs == nil {
		to = d.longest(d.leading(d.afterLoop()), d.RewindNow().To)
	}
	a := Advice{Do: Rewind, Why: Limit, Angle: &to, Side: d.sideOf(to), By: d.limitBy(), Gains: d.next().Lasts}
	a.Step, a.Offer = d.inLoop(checklist.Rewound{To: to})
	if _, turns := a.Offer.(checklist.Rewound); turns {
		if until, held := d.heldUntil(); held {
			return Advice{Do: Wait, Why: d.whyShut(d.boundBefore()), Target: d.Target.Name, From: at(until)}, true
		}
	}
	return a, true
}

// rewindDue tells that no sub fits the run any more before its limit, and that a rewind buys another.
func (d decider) rewindDue() bool {
	if !d.next().OK || d.Call.For != plan.ForLimit || d.Now.Before(d.Window.From) || d.Now.Before(d.Call.At) && !d.spent() {
		return false
	}
	return d.Log.Subs != nil || !d.Now.Before(d.loopFrom())
}

// afterLoop is the next run, begun as soon as the rest of the loop allows after a rewind at once.
func (d decider) afterLoop() Offer {
	run := d.next()
	run.Begins = later(run.Begins, d.Now.Add(run.Takes))
	return run
}

// startsAgainFor is what a run must still have for its subs, once stopped, to be started again before the rewind.
const startsAgainFor = 5 * time.Minute

// spent tells that a run has given its subs, and what is left of it is not worth starting them again.
func (d decider) spent() bool {
	return d.Log.Subs == nil && d.Anchor != nil && len(d.InRun) > 0 && d.Call.For == plan.ForLimit && d.next().OK &&
		d.Call.By.Sub(d.Now) < startsAgainFor
}

// loopFrom is when the loop before the next run must begin, for that to start as soon as it can.
func (d decider) loopFrom() time.Time {
	if !d.next().Later {
		return d.Now
	}
	if turn := d.next().TurnAt; !turn.IsZero() {
		return turn.Add(-d.Kit.Subs.BeforeTurn())
	}
	return d.next().Begins.Add(-d.next().Takes - d.Kit.Subs.BeforeTurn())
}

// limitBy is when the stage may reach its limit, nil if that is past or does not come.
func (d decider) limitBy() *time.Time {
	if early := d.Call.Limit.Early; early.OK && d.Now.Before(early.At) {
		return at(early.At)
	}
	return nil
}

// handsOver tells that the present target has nothing left before the next one's turn.
func (d decider) handsOver() bool {
	next, ok := d.following()
	if !ok || d.Log.Subs != nil && d.Now.Before(d.Call.At) {
		return false
	}
	if _, due := d.HandOver(); due {
		return true
	}
	none := !slices.ContainsFunc(d.Ahead().Runs, func(r plan.Run) bool { return r.From.Before(next.From) })
	_, fits := d.Call.Last()
	return none && (!fits || !d.Now.Before(d.Call.At)) && d.Log.Subs == nil && !d.Log.DerotatorSince.IsZero() || none && d.IsOver()
}

// following is the next target's stretch, begun or to come.
func (d decider) following() (share.Stretch, bool) {
	if next, due := d.HandOver(); due {
		return next, true
	}
	return d.Following()
}

func (d decider) handOver(next share.Stretch) Advice {
	a := Advice{Do: HandOver, Why: ForHandOver, Target: next.Target.Name}
	if runs := next.Runs.Runs; len(runs) > 0 {
		a.Angle, a.Side = angleOf(runs[0].StartAngle), d.sideOf(runs[0].StartAngle)
	}
	a.Step, a.Offer = d.inLoop(checklist.ChooseTarget{Target: checklist.Target{Name: next.Target.Name, Star: next.Target.Star}})
	return a
}

// another tells that the target in hand wants no more, and which other of the kit the rest of the night is worth.
func (d decider) another() (other Elsewhere, ok bool) {
	if d.Log.Subs != nil || d.Log.Cloud != nil || d.Log.DerotatorSince.IsZero() || !d.Taken.Done() {
		return other, false
	}
	other, ok = d.Elsewhere()
	return other, ok && other.Until.Sub(d.Now) >= d.Kit.Subs.WorthARewind
}

// goOn is a hand-over for no turn's sake: the target in hand is complete.
func (d decider) goOn(other Elsewhere) Advice {
	a := Advice{Do: HandOver, Why: GoalReached, Target: other.Target.Name, Angle: angleOf(other.Start), Side: d.sideOf(other.Start)}
	a.Step, a.Offer = d.inLoop(checklist.ChooseTarget{Target: checklist.Target{Name: other.Target.Name, Star: other.Target.Star}})
	return a
}

// again is the stage of the checklist between two runs.
const again checklist.Stage = "rewind again"

// inLoop returns what the one key says now on the way from one run to the next: the subs stopped, then each step
// of the loop in its order, and the change itself where the rewind stands in it.
func (d decider) inLoop(change checklist.Action) (step string, offer checklist.Action) {
	if d.Log.Subs != nil {
		return "", checklist.StopSubs{}
	}
	for _, s := range d.asked {
		switch {
		case s.Stage != again || slices.Contains(s.DoneBy, checklist.KindSubsStopped):
		case slices.Contains(s.DoneBy, checklist.KindRewound):
			return "", d.unguided(change)
		default:
			return s.ID, d.stepOffer(s)
		}
	}
	return "", d.unguided(change)
}

// unguided is what is said first for a turn of the stage and for a go-to: that guiding is off, which would chase its star
// meanwhile.
func (d decider) unguided(change checklist.Action) checklist.Action {
	_, rewinds := change.(checklist.Rewound)
	_, goes := change.(checklist.ChooseTarget)
	if (rewinds || goes) && d.Log.Guiding.On {
		return checklist.GuidingOff{}
	}
	return change
}

// finishSub: the last sub that fits is being taken.
func (d decider) finishSub() (Advice, bool) {
	last, any := d.Call.Last()
	if d.Log.Subs == nil || !any || d.Now.Before(last.Exposure.From) || !d.Now.Before(d.Call.At) {
		return Advice{}, false
	}
	return Advice{Do: FinishSub, Why: d.whyEnds(), By: at(d.Call.At), Filter: last.Filter.Name}, true
}

// whyEnds is why the run that is going on will end.
func (d decider) whyEnds() Why {
	switch d.Call.For {
	case plan.ForLimit:
		return Limit
	case plan.ForGoal:
		return GoalReached
	}
	return d.whyCloses(d.Call.Window.ClosesBefore)
}

// whyCloses is why a window that is open will close.
func (d decider) whyCloses(by plan.Bound) Why {
	if by == plan.ByDarkness || by == plan.ByNight {
		return DarknessOver
	}
	return d.whyShut(by)
}
