package screens

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// Choice is one key that answers a question at once.
type Choice struct {
	Key   string // "enter", or one small letter
	Words string // what it does: "divides it"
	Want  Intent // nil leaves all as it is
}

// NewChoice returns a question that one keystroke answers: word is the question for afar, in big letters, ""
// for one that stays in the footer. Esc leaves it, whatever the choices are.
func NewChoice(word, question string, choices ...Choice) Prompt {
	return Prompt{word: word, question: question, choices: choices}
}

// chosen takes the key of a choice; any other is told what is waited for, so that it is not taken for an answer.
func (p Prompt) chosen(msg tea.KeyMsg) (next Prompt, want Intent, over bool) {
	for _, c := range p.choices {
		if key.Matches(msg, key.NewBinding(key.WithKeys(c.Key, strings.ToUpper(c.Key)))) {
			return p, c.Want, true
		}
	}
	p.problem = fmt.Sprintf("%s is no answer here; waiting for %s", pressedWords(msg), p.keyWords())
	return p, nil, false
}

// pressedWords names a key that was pressed.
func pressedWords(msg tea.KeyMsg) string {
	if msg.Type == tea.KeySpace || msg.Type == tea.KeyRunes && string(msg.Runes) == " " {
		return "space"
	}
	return tea.Key(msg).String()
}

// keyWords are the keys that answer: "enter, n or esc".
func (p Prompt) keyWords() string {
	var names []string
	for _, c := range p.choices {
		names = append(names, c.Key)
	}
	return strings.Join(names, ", ") + " or esc"
}

// Answers says what each key does.
func (p Prompt) Answers() string {
	var ways []string
	for _, c := range p.choices {
		ways = append(ways, c.Key+" "+c.Words)
	}
	return strings.Join(append(ways, "esc goes back"), " · ")
}

// Word is the question in one word, "" for one that stays in the footer.
func (p Prompt) Word() string { return p.word }
