package screens

import (
	"fmt"
	"strings"

	"duskhand/ui/keys"
)

// Looks asks a room for the next entry of its list that has a text in it.
type Looks struct{ Text string }

// AskFind asks for a part of an entry in the list of a room, which is handed a Looks.
//
// entries are those of the list as it stands: a text that none has is refused at once.
func AskFind(to keys.Screen, what string, entries []string) Prompt {
	return NewPrompt("find in the list: a part of "+what, "", func(text string) (Intent, error) {
		text = strings.TrimSpace(text)
		switch _, found := Match(entries, -1, text); {
		case text == "":
			return nil, fmt.Errorf("give a part of %s", what)
		case !found:
			return nil, fmt.Errorf("nothing in the list has %q; give a part of %s", text, what)
		}
		return Hand{To: to, Msg: Looks{text}}, nil
	})
}

// Match returns the next entry after one that has a text in it, whatever its case, round at the end; ok is false if
// none has.
func Match(entries []string, after int, text string) (i int, ok bool) {
	text = strings.ToLower(text)
	for n := range entries {
		i = (after + 1 + n) % len(entries)
		if strings.Contains(strings.ToLower(entries[i]), text) {
			return i, true
		}
	}
	return after, false
}
