package ui

import (
	"errors"
	"strings"

	"duskhand/checklist"
	"duskhand/ui/screens"
)

// A night divided among several targets.

// askDivide asks whether the rest of the night is divided among the kit's targets.
func (m Model) askDivide() screens.Prompt {
	action := m.night.Status.Run.Divide()
	if len(action.Parts) < 2 && m.night.Status.Tonight.Shared() == nil {
		return screens.NewPrompt("fewer than two targets want subs: enter leaves it", "", func(string) (screens.Intent, error) { return nil, nil })
	}
	var names []string
	for _, p := range action.Parts {
		names = append(names, p.Target)
	}
	return screens.NewPrompt("divide the rest of the night among "+strings.Join(names, ", ")+"; n: one target alone", "divide", func(text string) (screens.Intent, error) {
		switch strings.ToLower(text) {
		case "":
			return screens.Say{Action: action}, nil
		case "n":
			return screens.Say{Action: checklist.DivideNight{}}, nil
		}
		return nil, errors.New("enter divides the night, n and enter leaves it to one target")
	})
}
