package page

import (
	"fmt"
	"io"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"duskhand/ui/theme"
)

// Card is a page of lines under headings, for a red lamp or paper.
type Card struct {
	Title    string
	Example  string // marks the built-in example; "" otherwise
	Sections []CardSection
	Caution  string
}

// CardSection is lines with their names at the left.
type CardSection struct {
	Title string
	Rows  [][2]string
}

// The card's measures. A sheet of A4 or letter paper holds it upright.
const (
	cardWidth  = 900.0
	cardLabel  = 240.0
	cardLetter = 17.0 // large enough for a dim lamp
	cardLine   = 24.0
)

// WriteCard writes a card.
//
// Error: that of the writer.
func WriteCard(to io.Writer, ink theme.Ink, c Card) error {
	s := &svg{ink: ink}
	y := 44.0
	s.text(point{edge, y}, 26, theme.Answer, "start", c.Title)
	if c.Example != "" {
		y += cardLine
		s.text(point{edge, y}, cardLetter, theme.Caution, "start", c.Example)
	}
	for _, part := range c.Sections {
		y += 1.5 * cardLine
		s.text(point{edge, y}, 19, theme.Answer, "start", part.Title)
		for _, row := range part.Rows {
			for i, line := range wrapped(row[1]) {
				y += cardLine
				if i == 0 {
					s.text(point{edge, y}, cardLetter, theme.Text, "start", row[0])
				}
				s.text(point{edge + cardLabel, y}, cardLetter, theme.Text, "start", line)
			}
		}
	}
	y += 2 * cardLine
	s.text(point{edge, y}, cardLetter, theme.Caution, "start", c.Caution)
	y += cardLine
	var out strings.Builder
	fmt.Fprintf(&out, `<?xml version="1.0" encoding="UTF-8"?>`+"\n"+`<svg xmlns="http://www.w3.org/2000/svg" width="%s" height="%s" viewBox="0 0 %s %s" font-family="DejaVu Sans, Arial, sans-serif">`+"\n",
		number(cardWidth), number(y), number(cardWidth), number(y))
	fmt.Fprintf(&out, "<title>%s</title>\n", escaped(c.Title))
	fmt.Fprintf(&out, `<rect width="%s" height="%s" fill="%s"/>`+"\n", number(cardWidth), number(y), ink.Paper)
	out.WriteString(s.String())
	out.WriteString("</svg>\n")
	_, err := io.WriteString(to, out.String())
	return err
}

// wrapped breaks a line that is too long for the card.
func wrapped(text string) []string {
	const columns = 58 // of letters of the usual width in what the labels leave
	return strings.Split(ansi.Wordwrap(text, columns, ""), "\n")
}
