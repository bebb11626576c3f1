package session

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/checklist/rehearsal"
)

// The subs of the example night: no capture computer writes them, so their stars are invented. They are fine
// until the tube cools, which shows in the half-flux diameter.

// rehearseSubs says that the subs of the example that are over by now have come.
func (m Session) rehearseSubs() (Session, tea.Cmd) {
	if !m.config.Kit.Example || m.Status.Log.Subs == nil || m.writing || m.Status.Run.Subs == nil {
		return m, nil
	}
	for _, sub := range m.Status.Run.Progress.Done {
		if !m.Status.Now.Before(sub.Over) {
			return m.Say(checklist.SubArrived{Body: rehearsal.InventedSub(m.config.Kit,
				len(m.Status.Log.Arrived), sub, m.Status.Tonight.Target.Name, m.Status.Run.SubNo)})
		}
	}
	return m, nil
}
