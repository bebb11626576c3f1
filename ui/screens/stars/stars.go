package stars

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/keys"
	"duskhand/ui/screens"
)

// Model is the screen. It keeps nothing: the pair in hand is the night's, since the checklist names its stars.
type Model struct{}

// New returns the room.
func New() Model { return Model{} }

// Update handles the room's keys.
func (r Model) Update(s screens.Status, msg tea.Msg) (screens.Room, screens.Intent, tea.Cmd) {
	if looks, ok := msg.(screens.Looks); ok {
		if i, found := screens.Match(pairNames(s), s.Stars.Chosen, looks.Text); found {
			return r, screens.ChoosePair{Pair: i}, nil
		}
		return r, nil, nil
	}
	pressed, ok := msg.(screens.Pressed)
	if !ok {
		return r, nil, nil
	}
	switch pressed.Action {
	case keys.Up:
		return r, choose(s, -1), nil
	case keys.Down:
		return r, choose(s, +1), nil
	case keys.Find:
		return r, screens.Ask{Prompt: screens.AskFind(keys.StarsScreen, "a star's name", pairNames(s))}, nil
	case keys.Axes:
		return r, screens.Ask{Prompt: askSight(s)}, nil
	case keys.Level:
		return r, screens.Ask{Prompt: askLevel()}, nil
	}
	return r, nil, nil
}

// pairNames are the pairs by the names of their stars.
func pairNames(s screens.Status) (names []string) {
	for _, p := range s.Stars.Pairs {
		names = append(names, p.First.Star.Name()+", "+p.Second.Star.Name())
	}
	return names
}

func choose(s screens.Status, by int) screens.Intent {
	return screens.ChoosePair{Pair: max(0, min(s.Stars.Chosen+by, len(s.Stars.Pairs)-1))}
}
