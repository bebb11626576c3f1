package ui

import (
	"duskhand/checklist"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
)

// nextThing is what the operator will most likely say next: the words for the footer and the action.
type nextThing struct {
	words  string // empty: nothing
	action checklist.Action
}

// likely is the next thing on the screen that shows: the chosen step where the steps are; the next step on
// the other screens until the derotator has been on; and from then on, and on the Run screen always, what
// the run wants.
func (m Model) likely() nextThing {
	switch {
	case m.screen == stepsScreen:
		return m.doStep(m.step)
	case m.screen != runScreen && m.log.DerotatorSince.IsZero():
		return m.doNextStep()
	}
	return m.next()
}

// doNextStep is the next step of the checklist, named, since its list does not show.
func (m Model) doNextStep() nextThing {
	thing := m.doStep(m.nextStep)
	if _, plain := thing.action.(checklist.DoStep); plain {
		const longest = 44
		thing.words = draw.Shorten(m.config.Charset, "done: "+m.steps[m.nextStep].Sentence(m.sentences), longest)
	}
	return thing
}

// next derives the next thing from the state. In a run it follows the trade's order: the last sub done,
// rewound, subs started.
func (m Model) next() nextThing {
	if m.tonight == nil {
		return nextThing{}
	}
	r := m.run
	switch r.Stage {
	case facts.Adrift, facts.NotUsable, facts.Doubtful:
		return nextThing{}
	case facts.Off:
		return m.turnOn()
	case facts.RewindDue, facts.PastLimit, facts.Closed, facts.Complete:
		return m.atTheCall()
	case facts.Over, facts.Waiting:
		if turn, ok := m.nextTurn(); ok && m.run.Stage == facts.Over && m.log.Subs == nil {
			return nextThing{"target " + turn.Target.Name, checklist.ChooseTarget{Target: checklist.Target{Name: turn.Target.Name, Star: turn.Target.Star}}}
		}
		if m.log.DerotatorOn {
			return nextThing{"derotator off", checklist.TurnOff{}}
		}
		return nextThing{}
	}
	if m.log.Subs == nil {
		return nextThing{"subs started", checklist.StartSubs{}}
	}
	return nextThing{}
}

// turnOn is the next thing while the derotator is off: the rewind to where the best run starts, if it is
// known to stand elsewhere, and then the turning on.
func (m Model) turnOn() nextThing {
	offer, parked := m.run.Offer, m.log.Parked
	switch {
	case !offer.OK:
		return nextThing{}
	case parked != nil && !m.run.StandsReady():
		return nextThing{"rewound to " + degreesText(offer.To), checklist.Rewound{To: offer.To}}
	case parked != nil:
		angle := *parked
		return nextThing{"derotator on at " + degreesText(angle), checklist.TurnOn{Angle: &angle}}
	}
	return nextThing{"derotator on at " + degreesText(offer.To), checklist.TurnOn{Angle: &offer.To}}
}

// atTheCall follows the trade's order: the subs stopped, then the rewind if one is to be made now.
func (m Model) atTheCall() nextThing {
	r := m.run
	switch {
	case m.log.Subs != nil:
		return nextThing{"subs stopped", checklist.StopSubs{}}
	case r.Offer.OK && !r.Offer.Later && r.Call.Rewind():
		return nextThing{"rewound to " + degreesText(r.Offer.To), checklist.Rewound{To: r.Offer.To}}
	}
	return nextThing{"derotator off", checklist.TurnOff{}}
}

// nextTarget is the action of going on to the kit's next target.
func (m Model) nextTarget() checklist.Action {
	targets := m.config.Kit.Targets
	chosen := targets[0]
	for i, target := range targets {
		if target.Name == m.tonight.Target.Name {
			chosen = targets[(i+1)%len(targets)]
		}
	}
	return checklist.ChooseTarget{Target: checklist.Target{Name: chosen.Name, Star: chosen.Star}}
}
