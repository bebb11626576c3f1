package session

import "duskhand/checklist"

// Refusing tells what the checklist has against an action.
func (m Session) Refusing(a checklist.Action) Session {
	if _, _, err := m.Status.List.Steps.Say(m.Status.Log, a, m.Status.Zone()); err != nil {
		m.Notice = err.Error()
	}
	return m
}
