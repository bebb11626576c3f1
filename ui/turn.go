package ui

import (
	"errors"
	"strings"

	"duskhand/checklist"
)

// A night divided among several targets.

// askDivide asks whether the rest of the night is divided among the kit's targets.
func (m Model) askDivide() *prompt {
	action := m.run.Divide()
	if len(action.Parts) < 2 && m.tonight.Shared() == nil {
		return newPrompt("fewer than two targets want subs: enter leaves it", "", func(string) (intent, error) { return nil, nil })
	}
	var names []string
	for _, p := range action.Parts {
		names = append(names, p.Target)
	}
	return newPrompt("divide the rest of the night among "+strings.Join(names, ", ")+"; n: one target alone", "divide", func(text string) (intent, error) {
		switch strings.ToLower(text) {
		case "":
			return saying(action), nil
		case "n":
			return saying(checklist.DivideNight{}), nil
		}
		return nil, errors.New("enter divides the night, n and enter leaves it to one target")
	})
}
