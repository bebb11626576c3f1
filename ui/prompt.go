package ui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// prompt asks for one angle of the derotator in the footer. An empty answer takes the proposed angle, if
// there is one.
type prompt struct {
	question string
	proposed *sky.Angle
	input    textinput.Model
	problem  string
	done     func(sky.Angle) intent
}

// intent is what a part of the screen asks of the root; nil asks nothing.
type intent func(Model) (Model, tea.Cmd)

func newPrompt(question string, proposed *sky.Angle, done func(sky.Angle) intent) *prompt {
	input := textinput.New()
	input.Prompt = ""
	input.CharLimit = 12
	input.Focus()
	return &prompt{question: question, proposed: proposed, input: input, done: done}
}

// update takes one key. The prompt returned is nil when it is finished with.
func (p *prompt) update(msg tea.KeyMsg, d kit.Derotator) (*prompt, intent) {
	switch msg.Type {
	case tea.KeyEsc, tea.KeyCtrlC:
		return nil, nil
	case tea.KeyEnter:
		angle, problem := p.answer(d)
		if problem != "" {
			next := *p
			next.problem = problem
			return &next, nil
		}
		return nil, p.done(angle)
	}
	next := *p
	next.input, _ = p.input.Update(msg)
	next.problem = ""
	return &next, nil
}

func (p *prompt) answer(d kit.Derotator) (angle sky.Angle, problem string) {
	text := p.input.Value()
	if text == "" && p.proposed != nil {
		return *p.proposed, ""
	}
	angle, err := sky.ParseAngle(text)
	if err != nil {
		return 0, err.Error()
	}
	if angle < d.Min || angle > d.Max {
		return 0, fmt.Sprintf("%s is outside the travel, %s to %s; give the angle that the derotator shows", tenths(angle), degreesText(d.Min), degreesText(d.Max))
	}
	return angle, ""
}

// line is what the footer shows.
func (p *prompt) line() string {
	proposal := ""
	if p.proposed != nil {
		proposal = " (enter: " + tenths(*p.proposed) + ")"
	}
	return fmt.Sprintf("%s%s: %s_   esc leaves it", p.question, proposal, p.input.Value())
}
