package alarms

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/bell"
	"duskhand/ui/screens"
)

// Model is the screen. It has no keys of its own.
type Model struct {
	messages bell.Messages // what the terminal shows on the desktop
}

// New returns the room.
func New(messages bell.Messages) Model { return Model{messages} }

// Update changes nothing: what there is to see is the night's.
func (r Model) Update(screens.Status, tea.Msg) (screens.Room, screens.Intent, tea.Cmd) {
	return r, nil, nil
}
