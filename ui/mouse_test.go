package ui_test

import (
	"strings"
	"testing"
	"time"
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

// The names of the rooms stand in the first row from 24 rows on, the open one marked; a click on one opens it.
func TestClicksOnTheLineOfRoomsOpenThem(t *testing.T) {
	t.Parallel()
	for _, width := range []int{80, 120, 60, 30} {
		s := start(t, width, 24, nil)
		first := func() string { return strings.Split(s.text(), "\n")[0] }
		require.Contains(t, first(), "1 run")
		at := strings.Index(strings.ReplaceAll(first(), "›", " "), "7")
		s.send(tea.MouseMsg{X: at, Y: 0, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
		assert.Contains(t, first(), "›7 decide", "%d columns", width)
		s.resize(width, 23)
		assert.NotContains(t, first(), "7 decide")
	}
}

// Help and leave never drop off the footer, and what takes an undo back stands right after it.
func TestTheFooterKeepsHelpAndLeave(t *testing.T) {
	t.Parallel()
	s := start(t, 80, 24, nil)
	footer := func() string {
		lines := strings.Split(s.text(), "\n")
		return lines[len(lines)-1]
	}
	for room := range 9 {
		for _, width := range []int{200, 80, 60, 40} {
			s.resize(width, 24)
			s.press(string(rune('1' + room)))
			assert.Contains(t, footer(), "?", "%d columns, room %d", width, room+1)
			assert.Regexp(t, `q( leave)? *$`, footer(), "%d columns, room %d", width, room+1)
		}
	}
	s.resize(120, 40)
	s.press("1", "u")
	assert.Regexp(t, `u undo: .*   y undo no more   `, footer())
	assert.NotContains(t, footer(), "z quiet")
	s.wait(17 * time.Minute)
	assert.Contains(t, footer(), "z quiet")
}

func TestTheWheelGoesThroughLists(t *testing.T) {
	s := start(t, 120, 40, nil).press("3")
	before := s.text()
	s.send(tea.MouseMsg{Button: tea.MouseButtonWheelDown, Action: tea.MouseActionPress})
	assert.NotEqual(t, before, s.text())
	s.send(tea.MouseMsg{Button: tea.MouseButtonWheelUp, Action: tea.MouseActionPress})
	assert.Equal(t, before, s.text())
}
