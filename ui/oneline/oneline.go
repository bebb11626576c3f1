// Package oneline is a line of text being typed, as the footer's questions and the form of a new kit have
// it: the library's text input, with one key of it made safe.
package oneline

import (
	"unicode/utf8"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
)

// New returns an empty line of at most so many characters, without a mark in front.
func New(longest int) textinput.Model {
	input := textinput.New()
	input.Prompt = ""
	input.CharLimit = longest
	return input
}

// Typed returns the line after one key.
//
// The key that deletes the word ahead makes the library (bubbles v1.0.0, deleteWordForward) read behind the
// end of the text when the cursor stands on its last character: it steps over that character and looks at
// the next before it has looked whether there is one. There the word is the rest of the line, and the key
// that deletes the rest of the line does the same without the fault.
func Typed(input textinput.Model, msg tea.KeyMsg) textinput.Model {
	onLast := input.Position() == utf8.RuneCountInString(input.Value())-1
	if onLast && key.Matches(msg, input.KeyMap.DeleteWordForward) {
		msg = tea.KeyMsg{Type: tea.KeyCtrlK}
	}
	input, _ = input.Update(msg) // its command makes a cursor blink that we draw ourselves
	return input
}
