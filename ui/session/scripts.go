package session

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/checklist/inbox"
	"duskhand/checklist/told"
	"duskhand/plan/kit"
	"duskhand/ui/hook"
)

// What other programs say, and what is said to them.

// takeLetters looks what scripts have said.
func takeLetters(journalPath string, now time.Time) tea.Cmd {
	return func() tea.Msg {
		letters, err := inbox.Take(inbox.Beside(journalPath), now)
		return lettersTakenMsg{letters, err}
	}
}

// answerLetter tells a script what became of what it said.
func answerLetter(letter inbox.Message, answer inbox.Answer) tea.Cmd {
	return func() tea.Msg { return answeredMsg{letter.Answer(answer)} }
}

func (m Session) lettersTaken(msg lettersTakenMsg) (Session, tea.Cmd) {
	if msg.err != nil {
		m.Notice = "what scripts say can't be read: " + msg.err.Error()
	}
	var cmds []tea.Cmd
	for i := range msg.letters {
		action, err := told.Action(m.config.Kit, msg.letters[i].Words)
		if err != nil {
			cmds = append(cmds, answerLetter(msg.letters[i], inbox.Answer{Text: err.Error()}))
			continue
		}
		var cmd tea.Cmd
		m, cmd = m.utter(utterance{action: action, letter: &msg.letters[i]})
		cmds = append(cmds, cmd)
	}
	return m, tea.Batch(cmds...)
}

// CallPrograms runs what the kit binds to the events of the night, once for each. Followers run nothing:
// the program that writes the night does.
func (m Session) CallPrograms() (Session, tea.Cmd) {
	if m.Status.Tonight == nil || m.Status.Follows != "" || len(m.config.Kit.On) == 0 || m.heard != nil && m.heard.Now.Equal(m.Status.Run.Now) && m.heard.Tonight == m.Status.Run.Tonight {
		return m, nil
	}
	happened := hook.Between(m.heard, m.Status.Run)
	now := m.Status.Run
	m.heard = &now
	var cmds []tea.Cmd
	for _, what := range happened {
		cmds = append(cmds, runPrograms(m.config.Kit, what))
	}
	return m, tea.Batch(cmds...)
}

func runPrograms(k kit.Kit, what hook.Happening) tea.Cmd {
	return func() tea.Msg { return programsRanMsg{what.Night, hook.Run(context.Background(), k, what)} }
}

// programsRan notes the failures, which never hold up the night.
func (m Session) programsRan(msg programsRanMsg) (Session, tea.Cmd) {
	if m.store == nil { // of the example, which has been left
		return m, nil
	}
	var cmds []tea.Cmd
	for _, failed := range msg.failed {
		m.Notice = "your program for " + failed.Event + " failed: " + failed.Problem
		store, at := m.store, m.Status.Now
		cmds = append(cmds, func() tea.Msg {
			written := appendEvent(store, msg.night, checklist.KindCommandFailed, at, failed)
			written.aside = true
			return written
		})
	}
	return m, tea.Batch(cmds...)
}
