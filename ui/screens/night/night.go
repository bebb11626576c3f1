package night

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/keys"
	"duskhand/ui/screens"
)

// Model is what the screen keeps.
type Model struct {
	scroll int // the first row of the table, 0 for where it begins by itself
}

// New returns the room.
func New() Model { return Model{} }

// Update goes through the table.
func (r Model) Update(s screens.Status, msg tea.Msg) (screens.Room, screens.Intent, tea.Cmd) {
	switch msg := msg.(type) {
	case screens.Entered:
		r.scroll = 0
	case screens.Pressed:
		switch msg.Action {
		case keys.Up:
			return r.moved(s, -1), nil, nil
		case keys.Down:
			return r.moved(s, +1), nil, nil
		}
	}
	return r, nil, nil
}

func (r Model) moved(s screens.Status, by int) Model {
	r.scroll = max(0, min(r.scroll+by, len(view{r, screens.Shown{Status: s}}.tableRows())-1))
	return r
}
