package ui_test

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
)

// Deleting the word ahead from the last character read behind the end of the text, and ended the program.
func TestDeletingTheWordAheadInAQuestion(t *testing.T) {
	s := own(t, 120, 40)
	s.press("n").press(typed("12")[:2]...).press("left")
	s.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'d'}, Alt: true})
	s.sees("note: 1_")
}
