package screens

import (
	"slices"

	"duskhand/checklist"
	"duskhand/ui/keys"
	"duskhand/ui/say"
)

// WithList returns the status with the checklist as the night has it by now.
func (s Status) WithList() Status {
	s.List.States = s.List.Steps.State(s.Log)
	if s.Tonight != nil {
		s.List.Facts = say.Known(s.Run, s.Stars)
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
	if id := s.stepOffered(); id != "" {
		return id
	}
	next, ok := s.List.Steps.Next(s.Log)
	if !ok {
		return ""
	}
	return next.ID
}

// stepOffered is the step that what is offered proves: the one that it proves before all else, of those of the loop the
// last, or else the first that is settled by it besides; "" for none.
func (s Status) stepOffered() string {
	if s.Advice.Offer == nil {
		return ""
	}
	kind, _, err := checklist.Say(s.Log, s.Advice.Offer, s.Zone())
	if err != nil {
		return ""
	}
	var own, besides checklist.Step
	for _, step := range s.List.States {
		switch i := slices.Index(step.DoneBy, kind); {
		case !step.Waiting():
		case kind == checklist.KindDerotatorOff && step.EndsRuns:
			return step.ID
		case i == 0 && (own.ID == "" || own.Loop && step.Loop):
			own = step.Step
		case i > 0 && besides.ID == "":
			besides = step.Step
		}
	}
	if own.ID != "" {
		return own.ID
	}
	return besides.ID
}

// Opening is the screen on which a night opens: the Run screen once the derotator has been on, the checklist before
// that and when the night is packed up.
func (s Status) Opening() keys.Screen {
	if s.Log.DerotatorSince.IsZero() || s.List.Steps.Stage(s.Log) == "stow" {
		return keys.StepsScreen
	}
	return keys.RunScreen
}
