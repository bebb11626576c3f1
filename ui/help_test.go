package ui_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
)

// No window cuts a key's words, and no key stands twice under one heading.
func TestTheSheetOfKeysCutsNothing(t *testing.T) {
	t.Parallel()
	for _, size := range [][2]int{{80, 24}, {120, 40}, {200, 60}} {
		for _, room := range []string{"1", "5", "7", "9"} {
			s := start(t, size[0], size[1], nil).press(room, "?")
			seen := s.text()
			for range 100 {
				s.press("down")
				seen += s.text()
			}
			assert.NotContains(t, seen, "…", "%v on %s", size, room)
		}
	}
}

// In a window that is lower than the sheet of keys it moves with the keys of lists and with the wheel, and
// every key can be read on the way.
func TestTheSheetOfKeysMoves(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {60, 12}, {40, 12}, {30, 6}} {
		s := start(t, size[0], size[1], nil).press("?").sees("Keys", "Never point")
		seen, moves := s.text(), 0
		for ; !strings.Contains(s.text(), "the end") && moves < 200; moves++ {
			s.sees("more below: down").press("down")
			seen += s.text()
		}
		for _, words := range []string{"undo what", "these keys", "read the", "next page", "drop what", "humidity",
			"nothing that", "On this screen: run", "The night, on every", "Everywhere", "On the screen decide"} {
			assert.Contains(t, seen, words, "%d×%d", size[0], size[1])
		}
		before := s.text()
		s.press("down")
		assert.Equal(t, before, s.text(), "no further than the end")
		s.press("k").sees("more below")
		s.send(tea.MouseMsg{Button: tea.MouseButtonWheelDown, Action: tea.MouseActionPress})
		assert.Equal(t, before, s.text())
		s.press("?").press("?").sees("Never point")
		s.press("x").seesNot("Never point")
	}
}
