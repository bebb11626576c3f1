package advice

import (
	"slices"

	"duskhand/checklist"
	"duskhand/plan/guiding"
)

// guidingAged: the guiding's calibration serves no longer, or may not and a look at one correction would tell. It is
// asked once the stage tracks, before guiding and the subs, and again in a run when the kinds of mounts have parted.
//
// A star may come back by a calibration with which guiding diverges all the same, an exposure late: where a look would
// leave that open, a new calibration costs less than the run.
func (d decider) guidingAged() (Advice, bool) {
	if !d.isReady() && !d.isGuided() || d.Log.Cloud != nil {
		return Advice{}, false
	}
	g, ok := d.GuideNow()
	switch {
	case !ok || g.Verdict == guiding.Holds:
		return Advice{}, false
	case g.Least != guiding.Holds, g.Verdict == guiding.Diverges && !g.Ask && !d.goesOn():
		return d.guideStep(checklist.KindGuidingCalibrated, checklist.GuidingCalibrated{})
	case g.Certain() || d.hasLooked(g):
		return Advice{}, false
	}
	return d.guideStep(checklist.KindGuideCheck, checklist.GuideChecked{Yes: true})
}

// isGuided tells that subs are being taken, with time left in the run, and guiding is said to be on.
func (d decider) isGuided() bool {
	return d.Log.Subs != nil && d.Log.Guiding.On && d.Anchor != nil && d.Now.Before(d.Call.At)
}

// goesOn tells that the run has been guided already: subs are being taken in it, or were.
func (d decider) goesOn() bool { return d.Log.Subs != nil || len(d.InRun) > 0 }

// hasLooked tells that it has been seen in this run what a correction does, or that the run goes on by it, and that
// seeing it again would tell nothing new.
func (d decider) hasLooked(g checklist.GuideAngle) bool {
	checks := d.Log.Guiding.Checks
	inRun := len(checks) > 0 && checks[len(checks)-1].Now.Run == len(d.Log.Runs)-1
	return (inRun || d.goesOn()) && !g.Ask || inRun && g.Slip
}

// guideStep is the step of the list that a proof settles, unless the person has waved it aside.
func (d decider) guideStep(proof string, offer checklist.Action) (Advice, bool) {
	steps := d.list.State(d.Log)
	i := slices.IndexFunc(steps, func(s checklist.StepState) bool { return slices.Contains(s.DoneBy, proof) })
	if i < 0 || steps[i].State == checklist.Skipped {
		return Advice{}, false
	}
	return Advice{Do: DoStep, Why: CalibrationOld, Step: steps[i].ID, Target: d.Target.Name, Offer: offer}, true
}
