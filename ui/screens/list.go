package screens

import (
	"slices"

	"duskhand/checklist"
	"duskhand/ui/keys"
)

// WithList returns the status with the checklist as the night has it by now.
func (s Status) WithList() Status {
	s.List.States = s.List.Steps.State(s.Log)
	if s.Tonight != nil {
		s.List.Facts = s.Run.Sentences(s.Stars)
	}
	s.List.Next = -1
	id := s.stepAdvised()
	for i, step := range s.List.States {
		if step.ID == id {
			s.List.Next = i
		}
	}
	return s
}

// stepAdvised is the id of the step that the advice is about: by its name, or because what it offers proves it; else
// the checklist's next.
func (s Status) stepAdvised() string {
	if s.Advice.Step != "" {
		return s.Advice.Step
	}
	if s.Advice.Offer != nil {
		kind, _, err := checklist.Say(s.Log, s.Advice.Offer, s.Zone())
		for _, step := range s.List.States {
			off := kind == checklist.KindDerotatorOff && step.EndsRuns
			if err == nil && step.Waiting() && (off || slices.Contains(step.DoneBy, kind)) {
				return step.ID
			}
		}
	}
	next, ok := s.List.Steps.Next(s.Log)
	if !ok {
		return ""
	}
	return next.ID
}

// Opening is the screen on which a night opens: the Run screen once the derotator has been on, the checklist before
// that and when the night is packed up.
func (s Status) Opening() keys.Screen {
	if s.Log.DerotatorSince.IsZero() || s.List.Steps.Stage(s.Log) == "stow" {
		return keys.StepsScreen
	}
	return keys.RunScreen
}
