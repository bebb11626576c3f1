package ui

import (
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/oneline"
)

// prompt asks for one line in the footer.
type prompt struct {
	question string
	proposal string // what enter alone takes, in words; "" if it takes nothing
	input    textinput.Model
	problem  string
	read     func(text string) (intent, error) // the error says what would be right
}

// intent is what a part of the screen asks of the root; nil asks nothing.
type intent func(Model) (Model, tea.Cmd)

// longestAnswer is more than any answer needs: a star's name and two angles.
const longestAnswer = 60

func newPrompt(question, proposal string, read func(string) (intent, error)) *prompt {
	input := oneline.New(longestAnswer)
	input.Focus()
	return &prompt{question: question, proposal: proposal, input: input, read: read}
}

// update takes one key. The prompt returned is nil when it is finished with.
func (p *prompt) update(msg tea.KeyMsg) (*prompt, intent) {
	next := *p
	switch msg.Type {
	case tea.KeyEsc, tea.KeyCtrlC:
		return nil, nil
	case tea.KeyEnter:
		want, err := p.read(p.input.Value())
		if err == nil {
			return nil, want
		}
		next.problem = err.Error()
		return &next, nil
	}
	next.input = oneline.Typed(p.input, msg)
	next.problem = ""
	return &next, nil
}

// line is what the footer shows.
func (p *prompt) line() string {
	proposal := ""
	if p.proposal != "" {
		proposal = " (enter: " + p.proposal + ")"
	}
	return p.question + proposal + ": " + p.input.Value() + "_   esc leaves it"
}
