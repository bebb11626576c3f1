package focus

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/keys"
	"duskhand/ui/screens"
)

// Model is what the screen keeps.
type Model struct {
	chosen int // in the list of focus stars
}

// New returns the room before anything was chosen.
func New() Model { return Model{} }

// Update handles the room's keys, and keeps the choice within the list.
func (r Model) Update(s screens.Status, msg tea.Msg) (screens.Room, screens.Intent, tea.Cmd) {
	switch msg := msg.(type) {
	case screens.Entered, screens.Changed:
		return r.moved(s, 0), nil, nil
	case screens.Looks:
		if i, found := screens.Match(starNames(s), r.chosen, msg.Text); found {
			r.chosen = i
		}
	case screens.Pressed:
		switch msg.Action {
		case keys.Up:
			return r.moved(s, -1), nil, nil
		case keys.Down:
			return r.moved(s, +1), nil, nil
		case keys.Find:
			return r, screens.Ask{Prompt: screens.AskFind(keys.FocusScreen, "a star's name", starNames(s))}, nil
		case keys.Focused:
			return r, r.askFocused(s), nil
		case keys.Temperature:
			return r, screens.Ask{Prompt: screens.AskTemperature()}, nil
		}
	}
	return r, nil, nil
}

// starNames are the focus stars by their names.
func starNames(s screens.Status) (names []string) {
	for _, c := range s.Stars.Focus {
		names = append(names, c.Star.Name())
	}
	return names
}

func (r Model) moved(s screens.Status, by int) Model {
	r.chosen = max(0, min(r.chosen+by, len(s.Stars.Focus)-1))
	return r
}

// askFocused asks what the thermometer shows now that both telescopes have been focused; no answer is one too.
func (r Model) askFocused(s screens.Status) screens.Intent {
	if s.Log.Subs != nil {
		return screens.Tell{Words: "subs are being taken; say that they have stopped, then focus"}
	}
	star := ""
	if r.chosen < len(s.Stars.Focus) {
		star = s.Stars.Focus[r.chosen].Star.Name()
	}
	return screens.Ask{Prompt: screens.AskFocused(star)}
}
