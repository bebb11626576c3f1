package screens

import (
	"errors"
	"strings"

	"duskhand/checklist"
)

// AskReason asks why a step is left out, or what went wrong with it.
func AskReason(question string, action func(text string) checklist.Action) Prompt {
	return NewPrompt(question, "", func(text string) (Intent, error) {
		if strings.TrimSpace(text) == "" {
			return nil, errors.New("give a few words: the record of the night shows them")
		}
		return Say{action(text)}, nil
	})
}
