package steps

import (
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
	"duskhand/ui/layout"
	"duskhand/ui/page"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

// CardMaker makes the card of a night for an instant.
type CardMaker func(*facts.Tonight, time.Time) page.Card

// typed is the card for the hand control: it covers the steps while it is open.
type typed struct {
	make CardMaker
	card *page.Card // nil while it is shut
	from int        // its row that shows first
}

// cardMsg brings the card that was asked for.
type cardMsg struct{ card page.Card }

// asked has the card made: it plans each target's night, which takes its time.
func (c typed) asked(s screens.Status) tea.Cmd {
	if c.make == nil || s.Tonight == nil {
		return nil
	}
	tonight, now := s.Tonight, s.Now
	return func() tea.Msg { return cardMsg{c.make(tonight, now)} }
}

func (c typed) opened(card page.Card) typed {
	c.card, c.from = &card, 0
	return c
}

// pressed moves the card, or shuts it.
func (c typed) pressed(s screens.Status, action keys.Action) typed {
	const around = 6 // rows of header, footer and the row that says whether there is more, at most
	switch action {
	case keys.Up:
		c.from = max(0, c.from-1)
	case keys.Down:
		rows := len(c.lines(s.Width - 2*layout.Margin(s.Width)))
		c.from = min(c.from+1, max(0, rows-max(1, s.Height-around)))
	case keys.ToNext, keys.Card:
		c.card = nil
	}
	return c
}

// line is one row of the card.
type line struct {
	role        theme.Role
	label, text string
}

// lines lays the card out for a width: the names at the left, what they name beside them, wrapped.
func (c typed) lines(width int) []line {
	all := []line{{role: theme.Answer, label: c.card.Title}}
	label := 0
	for _, part := range c.card.Sections {
		for _, row := range part.Rows {
			label = max(label, draw.Width(row[0]))
		}
	}
	label = min(label, width/3)
	for _, part := range c.card.Sections {
		all = append(all, line{}, line{role: theme.Key, label: part.Title})
		for _, row := range part.Rows {
			all = append(all, beside(row[0], row[1], label, width)...)
		}
	}
	all = append(all, line{})
	for _, text := range wrapped(c.card.Caution, width) {
		all = append(all, line{role: theme.Caution, label: text})
	}
	return all
}

// beside wraps a name and its text into two columns.
func beside(name, text string, label, width int) (rows []line) {
	names, texts := wrapped(name, label), wrapped(text, width-label-columnGap)
	for i := range max(len(names), len(texts)) {
		row := line{role: theme.Text}
		if i < len(names) {
			row.label = names[i]
		}
		if i < len(texts) {
			row.text = strings.Repeat(" ", max(0, label+columnGap-draw.Width(row.label))) + texts[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func wrapped(text string, width int) []string {
	return strings.Split(ansi.Wrap(text, max(1, width), ""), "\n")
}

// draw writes the card as far as it fits, and below it whether there is more.
func (c typed) draw(area draw.Area, s screens.Status) {
	all := c.lines(area.Width())
	rows := area.Height()
	if c.from > 0 || len(all) > rows {
		rows--
		words := "more below: " + s.Keys.Shown(keys.Down)
		if c.from+rows >= len(all) {
			words = "the end; back up: " + s.Keys.Shown(keys.Up)
		}
		area.Put(0, rows, theme.Key, layout.Longest(area.Width(), words+"; "+s.Keys.Shown(keys.ToNext)+" shuts the card", words))
	}
	for y := range min(rows, len(all)-c.from) {
		l := all[c.from+y]
		area.Put(0, y, l.role, l.label+l.text)
	}
}
