package ui_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/ui"
	"duskhand/ui/facts"
	"duskhand/ui/page"
)

// cardOf is a card of more rows than a window of 24 has, for the instant that it was asked for.
func cardOf(_ *facts.Tonight, now time.Time) page.Card {
	c := page.Card{Title: "Card for the night", Caution: "Never look at the Sun."}
	for i := range 12 {
		c.Sections = append(c.Sections, page.CardSection{Title: fmt.Sprintf("Section %d", i), Rows: [][2]string{{"for", now.Format("15:04:05")}}})
	}
	return c
}

func TestTheCardCoversTheStepsScrollsAndIsShut(t *testing.T) {
	s := start(t, 80, 24, func(c *ui.Config) { c.Card = cardOf }).press("b", "down")
	steps := s.text()
	s.press("c").sees("EXAMPLE", "Card for the night", "Section 0", "for 12:44:00", "more below")
	assert.NotContains(t, s.text(), "Section 11")
	for range 60 {
		s.press("down")
	}
	s.sees("Section 11", "Never look at the Sun.", "the end")
	s.press("up")
	assert.NotContains(t, s.text(), "the end", "one press up is enough after too many down")
	s.press("esc")
	assert.Equal(t, steps, s.text(), "esc shuts the card, and the cursor is where it was")
	s.press("c", "tab", "shift+tab")
	assert.NotContains(t, s.text(), "Card for the night", "who comes back to the steps finds the steps")
}

func TestTheCardKeepsTheRulesOfAScreen(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {120, 40}, {40, 16}, {30, 10}} {
		s := start(t, size[0], size[1], func(c *ui.Config) { c.Card = cardOf }).press("b", "c")
		lines := 1
		for _, r := range s.text() {
			if r == '\n' {
				lines++
			}
		}
		assert.Equal(t, size[1], lines)
		assert.Contains(t, s.text(), "EXAMPLE")
	}
}
