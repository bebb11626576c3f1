package ui

import (
	"duskhand/checklist"
	"duskhand/ui/draw"
	"duskhand/ui/keys"
	"duskhand/ui/say"
)

// nextThing is what the operator will most likely say next: the words for the footer and the action.
type nextThing struct {
	words  string // empty: nothing
	action checklist.Action
}

// likely is what the one key says: what is advised, or, on the screen of steps, what settles the step that the
// operator has gone to.
func (m Model) likely() nextThing {
	if m.tonight == nil {
		return nextThing{}
	}
	if s, ok := m.chosenStep(); ok && m.screen == keys.StepsScreen && m.wandered && s.ID != m.advice.Step {
		return m.doStep(s)
	}
	return m.advised()
}

// advised is the advice's offer, with the step named where its list does not show.
func (m Model) advised() nextThing {
	thing := nextThing{say.ActionWords(m.advice.Offer), m.advice.Offer}
	if _, plain := thing.action.(checklist.DoStep); plain && m.screen != keys.StepsScreen {
		if s, ok := m.stepNamed(m.advice.Step); ok {
			const longest = 44
			thing.words = draw.Shorten(m.config.Charset, "done: "+s.Sentence(m.sentences), longest)
		}
	}
	return thing
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
