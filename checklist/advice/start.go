package advice

import (
	"slices"
	"time"

	"duskhand/checklist"
)

// turnOn: the window is open or about to open, the stage is off, and stands where the run starts or is to be turned
// there.
func (d decider) turnOn() (Advice, bool) {
	if d.Log.DerotatorOn || !d.next().OK || d.Now.Before(d.next().Begins.Add(-d.Kit.Mount.Frame)) {
		return Advice{}, false
	}
	by, target := at(d.next().Begins), d.Target.Name
	to := d.next().To
	switch {
	case d.Log.Parked != nil && !d.standsReady():
		return Advice{Do: Rewind, Why: NotSettled, Angle: &to, Side: d.sideOf(to), By: by, Gains: d.next().Lasts, Target: target,
			Offer: d.unguided(checklist.Rewound{To: to})}, true
	case d.Log.Parked != nil:
		to = *d.Log.Parked
	}
	if d.Now.Before(d.onFrom()) {
		return Advice{}, false
	}
	return Advice{Do: DerotatorOn, Why: NotSettled, Angle: &to, Side: d.sideOf(to), From: at(d.onFrom()), By: by, Target: target,
		Gains: d.next().Lasts, Offer: checklist.TurnOn{Angle: &to}}, true
}

// onFrom is from when on the derotator may be on: some minutes before the first sub, to frame on the true picture. A
// stage that stands right need not turn first by what it is off.
func (d decider) onFrom() time.Time {
	from := d.next().Begins.Add(-d.onLead())
	if d.standsReady() {
		return from.Add(-d.next().Takes)
	}
	return from
}

// isReady tells that the stage tracks, and subs can begin at once or within the time for framing.
func (d decider) isReady() bool {
	return d.Anchor != nil && d.Log.Subs == nil && d.standsWell() && !d.spent() && !d.Now.Before(d.Window.From.Add(-d.Kit.Mount.Frame))
}

// startGuiding: the stage tracks, and guiding is not said to be on in this run.
func (d decider) startGuiding() (Advice, bool) {
	if d.Log.Subs != nil && d.Log.Guiding.Lost != nil && d.Now.Before(d.Call.At) {
		return Advice{Do: GuidingOn, Why: NotSettled, Target: d.Target.Name, Offer: checklist.GuidingOn{}}, true
	}
	i := slices.IndexFunc(d.asked, func(s checklist.StepState) bool {
		return s.State == checklist.Open && slices.Contains(s.DoneBy, checklist.KindGuidingOn) && !slices.Contains(s.DoneBy, checklist.KindGuideCheck)
	})
	if i < 0 || !d.isReady() || d.Log.Cloud != nil {
		return Advice{}, false
	}
	step := d.asked[i]
	return Advice{Do: GuidingOn, Why: NotSettled, Step: step.ID, Target: d.Target.Name, Offer: d.stepOffer(step)}, true
}

// startSubs: the window is open, the stage tracks, and a sub fits.
func (d decider) startSubs() (Advice, bool) {
	if !d.isReady() || d.Now.Before(d.Window.From) || d.Log.Cloud != nil {
		return Advice{}, false
	}
	sub, _, wanted := d.Taken.Next(d.Now)
	if !wanted {
		return Advice{}, false
	}
	return Advice{Do: SubsOn, Why: NotSettled, Target: d.Target.Name, Filter: sub.Filter.Name, By: at(d.Call.At), Offer: checklist.StartSubs{}}, true
}
