package ui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/keys"
	"duskhand/ui/layout"
	"duskhand/ui/screens"
)

// The mouse works and is never needed: the wheel goes through lists, a click on a key of the footer is that key.

// pointed handles the mouse.
func (m Model) pointed(msg tea.MouseMsg) (Model, tea.Cmd) {
	switch {
	case m.asking != nil:
		return m, nil
	case msg.Button == tea.MouseButtonWheelUp && m.helping:
		return m.moveSheet(-1), nil
	case msg.Button == tea.MouseButtonWheelDown && m.helping:
		return m.moveSheet(+1), nil
	case msg.Button == tea.MouseButtonWheelUp && m.night.Status.Keys.Of(keys.Up).Possible && m.night.Status.Screen != keys.FrameScreen:
		return m.hand(m.night.Status.Screen, screens.Pressed{Action: keys.Up})
	case msg.Button == tea.MouseButtonWheelDown && m.night.Status.Keys.Of(keys.Down).Possible && m.night.Status.Screen != keys.FrameScreen:
		return m.hand(m.night.Status.Screen, screens.Pressed{Action: keys.Down})
	case msg.Button == tea.MouseButtonLeft && msg.Action == tea.MouseActionPress && msg.Y == m.night.Status.Height-1 && !m.helping:
		return m.clicked(msg.X)
	case msg.Button == tea.MouseButtonLeft && msg.Action == tea.MouseActionPress && !m.helping && !m.forming &&
		msg.Y < screens.RoomsRows(m.night.Status.Height):
		return m.roomClicked(msg.X), nil
	case msg.Button == tea.MouseButtonLeft && msg.Action == tea.MouseActionPress && m.helping:
		m.helping = false
	}
	return m, nil
}

// roomClicked opens the room whose name stands at a column of the line of rooms.
func (m Model) roomClicked(x int) Model {
	for _, room := range m.night.Status.PlacedRooms(m.night.Status.Width) {
		if x >= room.From && x < room.To {
			m.night.Notice = ""
			return m.show(room.Screen)
		}
	}
	return m
}

// clicked presses the key of the footer at a column, if the keys show there.
func (m Model) clicked(x int) (Model, tea.Cmd) {
	footer := m.footer()
	if len(footer.Told)+len(footer.Asked) > 0 && !footer.Below {
		return m, nil
	}
	x -= layout.Margin(m.night.Status.Width)
	placed := footer.Placed(m.night.Status.Width - 2*layout.Margin(m.night.Status.Width))
	i := slices.IndexFunc(placed, func(k screens.PlacedKey) bool { return x >= k.From && x < k.To })
	if i < 0 {
		return m, nil
	}
	return m.pressed(placed[i].Press())
}
