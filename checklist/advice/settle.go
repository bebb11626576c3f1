package advice

import (
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/sky"
)

// clockInDoubt: the clock shows less than the journal has, so that nobody knows how long the stage has turned. Either
// the clock is set, or the angle is read anew.
func (d decider) clockInDoubt() (Advice, bool) {
	return Advice{Do: SayAngle, Why: AngleUnknown}, d.Behind > 0
}

// sayAngle: the stage turns, and nobody knows from where.
func (d decider) sayAngle() (Advice, bool) {
	if !d.Log.DerotatorOn || d.Anchor != nil {
		return Advice{}, false
	}
	return Advice{Do: SayAngle, Why: AngleUnknown}, true
}

// nextStep: the first step of the list that is not settled and can be done now. What waits for the Sun or the target
// holds up the stages after it; what waits for the derotator is passed over, for that comes later in the list.
func (d decider) nextStep() (Advice, bool) {
	if a, due := d.calibrateAgain(); due {
		return a, true
	}
	if d.Log.Subs != nil {
		return d.lookAtFirstSub()
	}
	if d.nothingLeft() {
		return Advice{}, false
	}
	a, _, ok := d.stepOrWait()
	if turn, due := d.turnForTarget(); due && !(ok && d.comesBefore(a.Step)) {
		return turn, true
	}
	return a, ok
}

// calibrateAgain: it was seen that a correction does not move the guide star back, and guiding has not been calibrated
// since.
func (d decider) calibrateAgain() (Advice, bool) {
	checks := d.Log.Guiding.Checks
	if len(checks) == 0 || checks[len(checks)-1].Yes || d.Anchor == nil {
		return Advice{}, false
	}
	if last, ok := d.Log.Guiding.Calibration(); ok && last.At.After(checks[len(checks)-1].Now.At) {
		return Advice{}, false
	}
	a := Advice{Do: DoStep, Why: CalibrationOld, Target: d.Target.Name, Offer: checklist.GuidingCalibrated{}}
	for _, s := range d.list.State(d.Log) {
		if slices.Contains(s.DoneBy, checklist.KindGuidingCalibrated) {
			a.Step = s.ID
		}
	}
	return a, true
}

// stepOrWait returns the step that can be done now, or else from when on the next one can; zero if none waits.
func (d decider) stepOrWait() (a Advice, from time.Time, ok bool) {
	var held checklist.Stage
	for _, s := range d.asked {
		switch {
		case s.Stage == again || s.Stage == stowing:
			return Advice{}, from, false
		case held != "" && s.Stage != held:
			return Advice{}, from, false
		case s.State == checklist.NotYet, s.ID == firstSub, d.isLater(s):
			continue
		case d.isActed(s):
			if a, ok := d.firstRewind(s); ok {
				return a, time.Time{}, true
			}
			continue
		}
		if when := d.begins(s); when.After(d.Now) {
			if from.IsZero() || when.Before(from) {
				from = when
			}
			held = s.Stage
			continue
		}
		return Advice{Do: DoStep, Why: NotSettled, Step: s.ID, Target: d.Target.Name, Offer: d.stepOffer(s)}, time.Time{}, true
	}
	return Advice{}, from, false
}

// comesBefore tells whether a step belongs to the stages before the stage is turned for a target.
func (d decider) comesBefore(id string) bool {
	s, ok := d.list.Step(id)
	stages := checklist.Stages()
	return ok && slices.Index(stages, s.Stage) <= slices.Index(stages, "rewind")
}

// turnForTarget is the rewind on the way to another target: the stage tracks from where it stood, no sub has been
// taken, and the night from a rewind at once gives more than from there, by more than the loop takes; a rewind less
// counts as what one must gain. It comes before the picture is framed, which it turns.
func (d decider) turnForTarget() (Advice, bool) {
	if d.Anchor == nil || d.Log.Anchor == nil || d.Log.Anchor.Why != checklist.WhyTarget || len(d.InRun) > 0 {
		return Advice{}, false
	}
	turned := d.turned()
	if len(turned.Runs) == 0 {
		return Advice{}, false
	}
	gains := turned.Exposed() - d.SubsLeft() + d.laterExposed(d.Now) + d.rewindsSaved(turned)
	if gains <= d.Kit.Subs.Loop {
		return Advice{}, false
	}
	to, ahead := turned.Runs[0].StartAngle, false
	if d.Kit.Derotator.StopsAnywhere {
		to = d.leading(Offer{To: to, Begins: turned.Runs[0].From, Takes: d.Course.RewindTime(d.Angle, to)})
		ahead = !d.atEnd(to) // it is turned back by what it tracks until the run begins
	}
	if rewind, first := turned.RewindBefore(0); first && rewind.From.After(d.Now) && !ahead {
		return Advice{}, false
	}
	a := Advice{Do: Rewind, Why: ForHandOver, Angle: &to, Side: d.sideOf(to), Gains: gains, Target: d.Target.Name,
		Offer: d.unguided(checklist.Rewound{To: to})}
	if step, offer, open := d.guidingToStop(); open {
		a.Step, a.Offer = step, offer
	}
	return a, true
}

// rewindsSaved is what getting up for the rewinds is worth that the night needs no more after a turn made now, when the
// person stands at the mount.
func (d decider) rewindsSaved(turned plan.Schedule) time.Duration {
	after := len(turned.Rewinds)
	if _, now := turned.RewindBefore(0); now {
		after--
	}
	return time.Duration(len(d.Ahead().Rewinds)-after) * d.Kit.Subs.WorthARewind
}

// isLater tells whether a step waits for the derotator to be on and seen to turn.
func (d decider) isLater(s checklist.StepState) bool {
	if s.When != checklist.WhenTurning {
		return false
	}
	if slices.Contains(s.DoneBy, checklist.KindRecentred) && d.Taken.Exposed() == 0 {
		return true // it is framed before the first run
	}
	return d.Anchor == nil || slices.ContainsFunc(d.asked, func(o checklist.StepState) bool { return o.ID == seen })
}

// Steps that the rules know by their ids.
const (
	seen     = "derotator-seen"
	firstSub = "first-sub-good"
)

// isActed tells whether a step is settled by what is said to derotator, subs or guiding, which have rules of their own.
func (d decider) isActed(s checklist.StepState) bool {
	return !slices.Contains(s.DoneBy, checklist.KindRecentred) && slices.ContainsFunc(s.DoneBy, func(proof string) bool {
		switch proof {
		case checklist.KindGuidingOn, checklist.KindRewound, checklist.KindDerotatorOn, checklist.ProofOnAtAngle, checklist.KindSubsStarted, checklist.KindSubsStopped,
			checklist.ProofRunsOver:
			return true
		}
		return false
	})
}

// firstRewind is the step of turning the stage to the start of the first run on a target.
func (d decider) firstRewind(s checklist.StepState) (Advice, bool) {
	if !slices.Contains(s.DoneBy, checklist.KindRewound) || !d.next().OK || d.standsReady() || d.standsWell() {
		return Advice{}, false
	}
	to := d.next().To
	return Advice{Do: Rewind, Why: NotSettled, Angle: &to, Side: d.sideOf(to), By: at(d.next().Begins), Gains: d.next().Lasts,
		Target: d.Target.Name, Offer: d.unguided(checklist.Rewound{To: to})}, true
}

// standsReady tells whether the stage, while it is off, is known to stand where the next run starts.
func (d decider) standsReady() bool {
	return d.Log.Parked != nil && d.next().OK && (*d.Log.Parked-d.next().To).Abs() < ready
}

// standsWell tells that the stage tracks, and a run from where it stands can begin.
func (d decider) standsWell() bool {
	return d.Anchor != nil && !d.Call.At.IsZero() && d.Now.Before(d.Call.At)
}

// begins is from when on a step can be done.
func (d decider) begins(s checklist.StepState) time.Time {
	event := func(e sky.Event) time.Time {
		if !e.OK {
			return time.Time{} // it does not come: nothing to wait for
		}
		return e.At
	}
	twilight := d.Night.Twilight
	switch s.When {
	case checklist.AfterSunset:
		return event(twilight.Sunset)
	case checklist.AtCivilDusk:
		return event(twilight.CivilDusk)
	case checklist.AtNauticalDusk:
		return event(twilight.NauticalDusk)
	case checklist.WhenTargetUp:
		dusk := later(event(twilight.NauticalDusk), d.Now)
		if d.Course.Place(dusk).Altitude >= d.Kit.Mount.Floor || d.Window.Length() == 0 {
			return event(twilight.NauticalDusk)
		}
		return d.Window.From.Add(-d.Kit.Mount.Frame)
	}
	return time.Time{}
}

// stepOffer is what says that a step is done: the event that proves it, where one key can say that and it makes sense,
// or else the step.
func (d decider) stepOffer(s checklist.StepState) checklist.Action {
	for _, proof := range s.DoneBy {
		var a checklist.Action
		switch proof {
		case checklist.KindTargetChosen:
			return checklist.ChooseTarget{Target: checklist.Target{Name: d.Target.Name, Star: d.Target.Star}}
		case checklist.KindGuidingCalibrated:
			a = checklist.GuidingCalibrated{}
		case checklist.KindGuidingOn:
			a = checklist.GuidingOn{}
		case checklist.KindGuidingOff:
			a = checklist.GuidingOff{}
		case checklist.KindRecentred:
			a = checklist.Recentred{}
		case checklist.KindCablesStraight:
			a = checklist.CablesStraight{}
		default:
			continue
		}
		if _, _, err := d.list.Say(d.Log, d.Completed(a), d.Kit.Site.Zone); err == nil {
			return a
		}
	}
	return checklist.DoStep{Step: s.ID}
}

// lookAtFirstSub: a sub of the run has been taken and nobody has looked at one yet. After the third it is not asked
// for any more.
func (d decider) lookAtFirstSub() (Advice, bool) {
	open := slices.ContainsFunc(d.asked, func(s checklist.StepState) bool { return s.ID == firstSub && s.State == checklist.Open })
	taken := len(d.InRun) + len(d.Progress.Done)
	if !open || taken < 1 || taken > 3 || !d.Now.Before(d.Call.At) {
		return Advice{}, false
	}
	return Advice{Do: DoStep, Why: NotSettled, Step: firstSub, Offer: checklist.DoStep{Step: firstSub}}, true
}

// sideOf is the end of the travel that an angle is nearer to.
func (d decider) sideOf(angle sky.Angle) plan.Side {
	if angle-d.Kit.Derotator.Min <= d.Kit.Derotator.Max-angle {
		return plan.MinLimit
	}
	return plan.MaxLimit
}
