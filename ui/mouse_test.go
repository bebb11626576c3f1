package ui_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// click presses the left button on words of the last row.
func (s *session) click(words string) *session {
	s.t.Helper()
	lines := strings.Split(s.text(), "\n")
	at := strings.Index(lines[len(lines)-1], words)
	require.GreaterOrEqual(s.t, at, 0, "no %q in the footer %q", words, lines[len(lines)-1])
	column := utf8.RuneCountInString(lines[len(lines)-1][:at])
	s.send(tea.MouseMsg{X: column, Y: len(lines) - 1, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
	return s
}

func TestClicksOnTheFooterAreItsKeys(t *testing.T) {
	s := start(t, 120, 40, nil)
	s.click("next screen").sees("of subs still to come tonight")
	s.click("steps").sees("of this stage left")
	s.click("keys").sees("Never point an unfiltered telescope")
	s.send(tea.MouseMsg{X: 3, Y: 3, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
	s.seesNot("Never point an unfiltered telescope")
	s.press("1", "s").sees("no subs are being taken").click("subs started").seesNot("no subs are being taken")
	before := s.text()
	s.send(tea.MouseMsg{X: 118, Y: 39, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
	s.send(tea.MouseMsg{X: 5, Y: 5, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
	assert.Equal(t, before, s.text(), "a click elsewhere is nothing")
}

func TestTheWheelGoesThroughLists(t *testing.T) {
	s := start(t, 120, 40, nil).press("3")
	before := s.text()
	s.send(tea.MouseMsg{Button: tea.MouseButtonWheelDown, Action: tea.MouseActionPress})
	assert.NotEqual(t, before, s.text())
	s.send(tea.MouseMsg{Button: tea.MouseButtonWheelUp, Action: tea.MouseActionPress})
	assert.Equal(t, before, s.text())
}
