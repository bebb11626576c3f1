package advice

import (
	"slices"
	"time"

	"duskhand/checklist"
)

// guidingStep is the step of the loop that starts guiding.
const guidingStep = "start-guiding"

// turnOn: the window is open or about to open, the stage is off, and stands where the run starts or is to be turned
// there.
func (d decider) turnOn() (Advice, bool) {
	if d.Log.DerotatorOn || !d.next.OK || d.Now.Before(d.onFrom()) {
		return Advice{}, false
	}
	by, target := at(d.next.Begins), d.Target.Name
	to := d.next.To
	switch {
	case d.Log.Parked != nil && !d.standsReady():
		return Advice{Do: Rewind, Why: NotSettled, Angle: &to, Side: d.sideOf(to), By: by, Gains: d.next.Lasts, Target: target,
			Offer: checklist.Rewound{To: to}}, true
	case d.Log.Parked != nil:
		to = *d.Log.Parked
	}
	return Advice{Do: DerotatorOn, Why: NotSettled, Angle: &to, Side: d.sideOf(to), From: at(d.onFrom()), By: by, Target: target,
		Gains: d.next.Lasts, Offer: checklist.TurnOn{Angle: &to}}, true
}

// onFrom is from when on the derotator may be on: some minutes before the first sub, to frame on the true picture.
func (d decider) onFrom() time.Time { return d.next.Begins.Add(-d.Kit.Mount.Frame) }

// isReady tells that the stage tracks, and subs can begin at once or within the time for framing.
func (d decider) isReady() bool {
	return d.Anchor != nil && d.Log.Subs == nil && d.standsWell() && !d.Now.Before(d.Window.From.Add(-d.Kit.Mount.Frame))
}

// startGuiding: the stage tracks, and guiding is not said to be on in this run.
func (d decider) startGuiding() (Advice, bool) {
	open := slices.ContainsFunc(d.asked, func(s checklist.StepState) bool { return s.ID == guidingStep && s.State == checklist.Open })
	if !open || !d.isReady() {
		return Advice{}, false
	}
	return Advice{Do: GuidingOn, Why: NotSettled, Step: guidingStep, Target: d.Target.Name, Offer: checklist.DoStep{Step: guidingStep}}, true
}

// startSubs: the window is open, the stage tracks, and a sub fits.
func (d decider) startSubs() (Advice, bool) {
	if !d.isReady() || d.Now.Before(d.Window.From) {
		return Advice{}, false
	}
	sub, _, wanted := d.Taken.Next(d.Now)
	if !wanted {
		return Advice{}, false
	}
	return Advice{Do: SubsOn, Why: NotSettled, Target: d.Target.Name, Filter: sub.Filter.Name, By: at(d.Call.At), Offer: checklist.StartSubs{}}, true
}
