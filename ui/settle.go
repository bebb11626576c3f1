package ui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/ui/keys"
)

// sayNext says that the next thing is done, and with it what else the Run screen's sentence asked for: who
// answers "Stop the subs, stop guiding, then say so" has said both.
func (m Model) sayNext() (Model, tea.Cmd) {
	thing := m.likely()
	var cmds []tea.Cmd
	if m.screen == keys.RunScreen && m.log.UsesSteps() {
		for _, id := range askedWith(thing.action) {
			if !m.isOpen(id) {
				continue
			}
			var cmd tea.Cmd
			m, cmd = m.utter(utterance{action: checklist.DoStep{Step: id}, implied: true})
			cmds = append(cmds, cmd)
		}
	}
	m, cmd := m.say(thing.action)
	return m, tea.Batch(append(cmds, cmd)...)
}

// askedWith names the steps of the checklist that stand in one sentence with an action.
func askedWith(action checklist.Action) []string {
	switch action.(type) {
	case checklist.StopSubs:
		return []string{"stop-guiding"}
	}
	return nil
}

// isOpen tells whether the operator's checklist has the step and it is to be done.
func (m Model) isOpen(id string) bool {
	i := slices.IndexFunc(m.steps, func(s checklist.StepState) bool { return s.ID == id })
	return i >= 0 && m.steps[i].Waiting()
}
