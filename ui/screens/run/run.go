package run

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/keys"
	"duskhand/ui/screens"
)

// Model is what the screen keeps.
type Model struct {
	digitsOnly bool
}

// New returns the room.
func New() Model { return Model{} }

// Update handles the room's one key.
func (r Model) Update(_ screens.Status, msg tea.Msg) (screens.Room, screens.Intent, tea.Cmd) {
	if pressed, ok := msg.(screens.Pressed); ok && pressed.Action == keys.Digits {
		r.digitsOnly = !r.digitsOnly
	}
	return r, nil, nil
}
