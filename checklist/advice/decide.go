package advice

import (
	"sync"

	"duskhand/checklist"
)

// Decide says what is to be done at a moment, by the checklist's steps. It is the one place where that is decided.
func Decide(m Moment, list checklist.List) Advice {
	d := decider{Moment: m, list: list, next: sync.OnceValue(m.Next)}
	if d.leads() {
		d.asked = m.Tonight.asked.of(list, m.Log)
	}
	var first *Advice
	for _, rule := range rules() {
		a, holds := rule(d)
		switch {
		case !holds:
		case first == nil:
			first = &a
		case a.Do != first.Do && a.Do != Wait:
			first.Also = append(first.Also, a.Do)
		}
	}
	first.Level = d.level(*first)
	d.about(first)
	return *first
}

// about names what an advice is about where its rule did not: the target of all that is done on one, and the filter of
// the subs that go on.
func (d decider) about(a *Advice) {
	if a.Target == "" && a.Do != Stow {
		a.Target = d.Target.Name
	}
	going := a.Do == StopSubs || a.Do == FinishSub || a.Do == Wait || a.Do == DoStep && a.Step == firstSub
	if a.Filter == "" && going && d.Subs != nil && !d.Progress.Waiting {
		a.Filter = d.Progress.Now.Filter.Name
	}
}

// decider is a moment being judged.
type decider struct {
	Moment
	list  checklist.List
	next  func() Offer          // the run that the plan has next: after the present one, or the first
	asked []checklist.StepState // that wait, in order; none of a night that goes by derotator and subs alone
}

// leads tells whether the checklist leads through the night: it does until subs could be taken, and from then on if
// any of it was said. Who has said nothing of it by then is set up, and goes by derotator and subs alone.
func (d decider) leads() bool {
	early := d.Log.DerotatorSince.IsZero() && d.Now.Before(d.Window.From.Add(-d.Kit.Mount.Frame))
	return early || d.Log.UsesSteps()
}

// rule says what it advises, if it holds.
type rule func(d decider) (a Advice, holds bool)

// rules returns the rules in the order in which they are judged. The last always holds.
func rules() []rule {
	return []rule{decider.clockInDoubt, decider.moveAway, decider.stopSubs, decider.changeRun, decider.finishSub, decider.sayAngle, decider.nextStep, decider.turnOn,
		decider.guidingAged, decider.startGuiding, decider.startSubs, decider.usePause, decider.stow, decider.wait}
}

// level is how loud an advice is at the moment.
func (d decider) level(a Advice) Level {
	switch a.Do {
	case MoveAway:
		return Calling
	case SayAngle:
		if !d.Log.DerotatorOn {
			return Warning
		}
		return Calling
	case StopSubs:
		if a.Why == Twilight {
			return Warning
		}
		return Calling
	case Rewind, HandOver:
		if d.Log.Subs != nil || d.Anchor != nil && !d.Now.Before(d.Window.From) {
			return Calling
		}
	case GuidingOn:
		if d.Log.Subs != nil {
			return Calling
		}
	case DoStep:
		if a.Why == CalibrationOld && d.Log.Subs != nil {
			return Warning
		}
	case FinishSub, Wait:
		if a.By != nil && d.Log.Subs != nil && a.By.Sub(d.Now) <= d.Kit.Alarm.WarnBefore {
			return Warning
		}
	}
	return Quiet
}
