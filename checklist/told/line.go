package told

import (
	"strings"

	"duskhand/checklist"
	"duskhand/plan/kit"
)

// Line is Action for words in one text, in which nothing marks where a name of several words ends: "target NGC 1365
// -16". The longest name that makes sense is meant.
func Line(k kit.Kit, text string) (checklist.Action, error) {
	words := strings.Fields(text)
	if len(words) < 2 {
		return Action(k, words)
	}
	var first error
	for n := len(words) - 1; n > 0; n-- {
		name := strings.Join(words[1:n+1], " ")
		action, err := Action(k, append([]string{words[0], name}, words[n+1:]...))
		if err == nil {
			return action, nil
		}
		if first == nil {
			first = err
		}
	}
	return nil, first
}
