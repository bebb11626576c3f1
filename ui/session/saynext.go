package session

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/ui/keys"
)

// SayNext says that the next thing is done, and with it what else the Run screen's sentence asked for: who
// answers "Stop the subs, stop guiding, then say so" has said both.
func (m Session) SayNext(action checklist.Action) (Session, tea.Cmd) {
	var with []string
	if m.Status.Screen == keys.RunScreen {
		with = m.askedWith(action)
	}
	m, first := m.implied(with)
	m, cmd := m.Say(action)
	return m, tea.Batch(first, cmd)
}

// implied says that the steps are done that go without saying by what is said next, as far as they are to be done.
func (m Session) implied(steps []string) (Session, tea.Cmd) {
	var cmds []tea.Cmd
	for _, id := range steps {
		if !m.Status.Log.UsesSteps() || !m.isOpen(id) {
			continue
		}
		var cmd tea.Cmd
		m, cmd = m.utter(utterance{action: checklist.DoStep{Step: id}, implied: true})
		cmds = append(cmds, cmd)
	}
	return m, tea.Batch(cmds...)
}

// askedWith names the steps of the checklist that stand in one sentence with an action.
func (m Session) askedWith(action checklist.Action) []string {
	if _, stops := action.(checklist.StopSubs); stops && m.Status.Voice().AsksGuidingOff() {
		return []string{"stop-guiding"}
	}
	return nil
}

// isOpen tells whether the operator's checklist has the step and it is to be done.
func (m Session) isOpen(id string) bool {
	i := slices.IndexFunc(m.Status.List.States, func(s checklist.StepState) bool { return s.ID == id })
	return i >= 0 && m.Status.List.States[i].Waiting()
}
