package oneline_test

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"duskhand/ui/oneline"
)

var (
	deleteWordAhead = tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'d'}, Alt: true}
	left            = tea.KeyMsg{Type: tea.KeyLeft}
)

func TestDeletingTheWordAhead(t *testing.T) {
	for _, c := range []struct {
		name, text string
		back       int // how often the cursor goes left from the end
		want       string
	}{
		{"of an empty line", "", 0, ""},
		{"behind the end", "11.5", 0, "11.5"},
		{"from the last character", "11.5", 1, "11."},
		{"of a line of one character", "7", 1, ""},
		{"from a last space", "M ", 1, "M"},
		{"from a last character of several bytes", "−16°", 1, "−16"},
		{"from within a word", "Sirius 37 104", 10, "Sir 37 104"},
		{"across the space before it", "Sirius 37", 3, "Sirius"},
	} {
		t.Run(c.name, func(t *testing.T) {
			line := oneline.New(60)
			line.Focus()
			for _, r := range c.text {
				line = oneline.Typed(line, tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
			}
			for range c.back {
				line = oneline.Typed(line, left)
			}
			assert.Equal(t, c.want, oneline.Typed(line, deleteWordAhead).Value())
		})
	}
}

// No keys, in whatever order, end the program.
func TestNoKeysPanic(t *testing.T) {
	kinds := []tea.KeyType{tea.KeyLeft, tea.KeyRight, tea.KeyHome, tea.KeyEnd, tea.KeyBackspace, tea.KeyDelete, tea.KeyCtrlA, tea.KeyCtrlD, tea.KeyCtrlE,
		tea.KeyCtrlK, tea.KeyCtrlT, tea.KeyCtrlU, tea.KeyCtrlW, tea.KeySpace, tea.KeyTab, tea.KeyUp, tea.KeyDown, tea.KeyRunes}
	texts := []string{"d", "b", "f", "ä", " ", "日", "\x00", "", "a b "}
	rapid.Check(t, func(t *rapid.T) {
		line := oneline.New(8)
		line.Focus()
		for range rapid.IntRange(0, 40).Draw(t, "keys") {
			msg := tea.KeyMsg{Type: rapid.SampledFrom(kinds).Draw(t, "kind"), Alt: rapid.Bool().Draw(t, "alt")}
			if msg.Type == tea.KeyRunes {
				msg.Runes = []rune(rapid.SampledFrom(texts).Draw(t, "text"))
			}
			line = oneline.Typed(line, msg)
		}
	})
}
