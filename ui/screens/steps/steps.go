package steps

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/ui/keys"
	"duskhand/ui/screens"
)

// Model is what the screen keeps.
type Model struct {
	chosen   int  // in the list of steps
	wandered bool // the operator has chosen another than the next
	awaits   bool // and that one is not settled yet
	typed    typed
}

// New returns the room; card makes what is typed into a hand control, for an instant of the night: nil if nobody can.
func New(card CardMaker) Model { return Model{typed: typed{make: card}} }

// Update handles the room's keys, and keeps to the next step unless the operator has gone elsewhere.
func (r Model) Update(s screens.Status, msg tea.Msg) (screens.Room, screens.Intent, tea.Cmd) {
	switch msg := msg.(type) {
	case screens.Entered:
		r.wandered, r.typed.card = false, nil
		return r.following(s), nil, nil
	case screens.Changed:
		return r.goneOn(s).following(s), nil, nil
	case screens.Looks:
		if i, found := screens.Match(sentences(s), r.chosen, msg.Text); found {
			return r.moved(s, i-r.chosen), nil, nil
		}
	case cardMsg:
		r.typed = r.typed.opened(msg.card)
	case screens.Pressed:
		if r.typed.card != nil {
			r.typed = r.typed.pressed(s, msg.Action)
			return r, nil, nil
		}
		if msg.Action == keys.Card {
			return r, nil, r.typed.asked(s)
		}
		next, want := r.pressed(s, msg.Action)
		return next, want, nil
	}
	return r, nil, nil
}

func (r Model) pressed(s screens.Status, action keys.Action) (Model, screens.Intent) {
	step, ok := view{r, screens.Shown{Status: s}}.chosenStep()
	switch action {
	case keys.Up:
		return r.moved(s, -1), nil
	case keys.Down:
		return r.moved(s, +1), nil
	case keys.Find:
		return r, screens.Ask{Prompt: screens.AskFind(keys.StepsScreen, "a step's sentence", sentences(s))}
	case keys.ToNext:
		r.wandered = false
		return r.following(s), nil
	case keys.Skip:
		return r, screens.Ask{Prompt: screens.AskReason("left out because", func(text string) checklist.Action {
			return checklist.SkipStep{Step: step.ID, Reason: text}
		})}
	case keys.Fail:
		return r, screens.Ask{Prompt: screens.AskReason("what went wrong", func(text string) checklist.Action {
			return checklist.FailStep{Step: step.ID, Note: text}
		})}
	case keys.Open:
		screen, known := keys.ScreenNamed(step.Screen)
		if !ok || !known {
			return r, screens.Tell{Words: "no screen helps with this step; do it, then say so"}
		}
		return r, screens.Go{To: screen}
	}
	return r, nil
}

// sentences are the steps as the list shows them.
func sentences(s screens.Status) (all []string) {
	for _, step := range s.List.States {
		all = append(all, step.Sentence(s.List.Facts))
	}
	return all
}

func (r Model) moved(s screens.Status, by int) Model {
	r.chosen, r.wandered = max(0, min(r.chosen+by, len(s.List.States)-1)), true
	r.awaits = r.chosen < len(s.List.States) && s.List.States[r.chosen].Waiting()
	return r
}

// goneOn leaves a step that the operator had gone to once it is settled, for the first after it that is not; without
// one, for the next of the night.
func (r Model) goneOn(s screens.Status) Model {
	if !r.wandered || !r.awaits || r.chosen >= len(s.List.States) || s.List.States[r.chosen].Waiting() {
		return r
	}
	for i := r.chosen + 1; i < len(s.List.States); i++ {
		if s.List.States[i].Waiting() {
			r.chosen = i
			r.wandered = i != s.List.Next
			return r
		}
	}
	r.wandered = false
	return r
}

// following goes to the next step, unless the operator has gone elsewhere; when all is done to the end of the list.
func (r Model) following(s screens.Status) Model {
	if !r.wandered {
		r.chosen = s.List.Next
		if r.chosen < 0 {
			r.chosen = len(s.List.States) - 1
		}
	}
	r.chosen = max(0, min(r.chosen, len(s.List.States)-1))
	return r
}

// Keys: steps can be left out when there are any, and from another step one comes back to the next.
func (r Model) Keys(s screens.Status, state keys.State) keys.State {
	open := r.typed.card != nil
	state.Steps, state.Elsewhere = len(s.List.States) > 0 && !open, r.wandered || open
	return state
}

// Offers is what settles the step that the operator has gone to.
func (r Model) Offers(s screens.Status) (offer screens.Offer, ok bool) {
	step, ok := view{r, screens.Shown{Status: s}}.chosenStep()
	if !ok || !r.wandered || r.typed.card != nil || step.ID == s.Advice.Step {
		return screens.Offer{}, false
	}
	return settling(s, step), true
}

// settling is what settles a step that the operator has gone to: the event that proves it, if that is advised; else the
// step itself.
func settling(s screens.Status, step checklist.StepState) screens.Offer {
	if step.State == checklist.Done || step.State == checklist.Over {
		return screens.Offer{}
	}
	if s.Advice.Offer != nil {
		kind, _, err := checklist.Say(s.Log, s.Advice.Offer, s.Zone())
		if err == nil && slices.Contains(step.DoneBy, kind) {
			return s.Advised()
		}
	}
	return screens.Offer{Words: "done", Action: checklist.DoStep{Step: step.ID}}
}
