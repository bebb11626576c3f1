package screens

import (
	"slices"

	"duskhand/checklist"
	"duskhand/ui/draw"
	"duskhand/ui/keys"
	"duskhand/ui/say"
)

// StepNamed returns a step of the list by its id.
func (s Status) StepNamed(id string) (checklist.StepState, bool) {
	i := slices.IndexFunc(s.List.States, func(step checklist.StepState) bool { return step.ID == id })
	if i < 0 {
		return checklist.StepState{}, false
	}
	return s.List.States[i], true
}

// Advised is the advice's offer, with the step named where its list does not show.
func (s Status) Advised() Offer {
	offer := Offer{say.ActionWords(s.Advice.Offer), s.Advice.Offer}
	if _, plain := offer.Action.(checklist.DoStep); plain && s.Screen != keys.StepsScreen {
		if step, ok := s.StepNamed(s.Advice.Step); ok {
			const least, longest, beside = 24, 44, 52 // beside it stand undo, help and leave
			offer.Words = draw.Shorten(s.Charset, "done: "+step.Sentence(s.List.Facts), min(longest, max(least, s.Width-beside)))
		}
	}
	return offer
}
