package ui

import "duskhand/ui/keys"

// keyState is what it hangs on which keys can be pressed.
func (m Model) keyState() keys.State {
	_, chosen := m.choice()
	return keys.State{
		Screen: m.screen, Read: m.tonight != nil, Writes: m.store != nil && m.tonight != nil && m.follows == "",
		Offers: m.likely().words != "", On: m.log.DerotatorOn, Subs: m.log.Subs != nil, Targets: len(m.config.Kit.Targets),
		Undoable: m.log.Undoable != nil, Redoable: m.log.Redoable != nil, Helping: m.helping, NewKit: m.config.NewKit != nil,
		Steps: len(m.steps) > 0, Chosen: chosen && m.screen == keys.DecideScreen, Air: m.airRead(), Draft: m.frame.draft != nil,
	}
}
