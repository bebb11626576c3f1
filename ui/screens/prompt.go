package screens

import (
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/oneline"
)

// Prompt asks for one line in the footer, or for one of a few keys.
type Prompt struct {
	word     string   // the question in one word, for afar; "" for one that stays in the footer
	choices  []Choice // that one key answers with; none where a line is asked for
	question string
	proposal string // what enter alone takes, in words; "" if it takes nothing
	input    textinput.Model
	problem  string
	read     func(text string) (Intent, error) // the error says what would be right
}

// longestAnswer is more than any answer needs: a star's name and two angles.
const longestAnswer = 60

// NewPrompt returns a question. Enter alone takes the proposal, "" if there is none; read turns an answer into an
// intent, or says what would be right.
func NewPrompt(question, proposal string, read func(string) (Intent, error)) Prompt {
	input := oneline.New(longestAnswer)
	input.Focus()
	return Prompt{question: question, proposal: proposal, input: input, read: read}
}

// Update takes one key. over tells that the prompt is finished with.
func (p Prompt) Update(msg tea.KeyMsg) (next Prompt, want Intent, over bool) {
	if msg.Type == tea.KeyEsc || msg.Type == tea.KeyCtrlC {
		return p, nil, true
	}
	if len(p.choices) > 0 {
		return p.chosen(msg)
	}
	switch msg.Type {
	case tea.KeyEnter:
		want, err := p.read(p.input.Value())
		if err == nil {
			return p, want, true
		}
		p.problem = err.Error()
		return p, nil, false
	}
	p.input = oneline.Typed(p.input, msg)
	p.problem = ""
	return p, nil, false
}

// Problem says what is wrong with the last answer, "" if nothing is.
func (p Prompt) Problem() string { return p.problem }

// Line is what the footer shows.
func (p Prompt) Line() string {
	if len(p.choices) > 0 {
		return p.question + ": " + p.Answers()
	}
	proposal := ""
	if p.proposal != "" {
		proposal = " (enter: " + p.proposal + ")"
	}
	return p.question + proposal + ": " + p.input.Value() + "_   esc goes back"
}
