package ui

import (
	"duskhand/ui/keys"
	"duskhand/ui/say"
	"duskhand/ui/screens"
)

// keyState is what it hangs on which keys can be pressed.
func (m Model) keyState() keys.State {
	s := m.night.Status
	state := keys.State{
		Screen: s.Screen, Read: s.Tonight != nil, Writes: m.night.IsOpen() && s.Follows == "",
		Offers: m.likely().Words != "", On: s.Log.DerotatorOn, Subs: s.Log.Subs != nil, Targets: len(s.Kit.Targets),
		Undoable: s.Log.Undoable != nil, Redoable: s.Log.Redoable != nil, Helping: m.helping, Rings: rings(s.Heeded()), NewKit: m.config.NewKit != nil,
	}
	if room, holds := m.room().(screens.KeyHolder); holds {
		state = room.Keys(s, state)
	}
	return state
}

// rings tells that an alert calls or warns which the bell is rung for.
func rings(heeded []say.Alert) bool { return len(heeded) > 0 }

// moveSheet moves the sheet of keys.
func (m Model) moveSheet(by int) Model {
	m.sheet = m.sheet.Moved(by, m.night.Status)
	return m
}
