package ui

import (
	"duskhand/ui/keys"
	"slices"

	tea "github.com/charmbracelet/bubbletea"
)

// The mouse works and is never needed: the wheel goes through lists, a click on a key of the footer is that key.

// pointed handles the mouse.
func (m Model) pointed(msg tea.MouseMsg) (Model, tea.Cmd) {
	switch {
	case m.asking != nil:
		return m, nil
	case msg.Button == tea.MouseButtonWheelUp && m.helping:
		return m.helped(-1), nil
	case msg.Button == tea.MouseButtonWheelDown && m.helping:
		return m.helped(+1), nil
	case msg.Button == tea.MouseButtonWheelUp && m.keys.Of(keys.Up).Possible && m.screen != keys.FrameScreen:
		return m.moved(-1), nil
	case msg.Button == tea.MouseButtonWheelDown && m.keys.Of(keys.Down).Possible && m.screen != keys.FrameScreen:
		return m.moved(+1), nil
	case msg.Button == tea.MouseButtonLeft && msg.Action == tea.MouseActionPress && msg.Y == m.height-1 && !m.helping:
		return m.clicked(msg.X)
	case msg.Button == tea.MouseButtonLeft && msg.Action == tea.MouseActionPress && m.helping:
		m.helping = false
	}
	return m, nil
}

// clicked presses the key of the footer at a column, if the keys show there.
func (m Model) clicked(x int) (Model, tea.Cmd) {
	if m.told() != "" && m.keysBelow() == 0 {
		return m, nil
	}
	x -= margin(m.width)
	placed := m.placedKeys(m.width - 2*margin(m.width))
	i := slices.IndexFunc(placed, func(k placedKey) bool { return x >= k.from && x < k.to })
	if i < 0 {
		return m, nil
	}
	return m.pressed(placed[i].key.Press())
}
