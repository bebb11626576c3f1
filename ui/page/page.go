// Package page writes the page of a night as one SVG picture: for each target the night's chart, the runs
// and the field with the chip in it. It shows facts that others derived, on dark ground or for paper.
package page

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/ui/frame"
	"duskhand/ui/theme"
)

// Night is what the page shows of one target.
type Night struct {
	Told  frame.Told
	Price plan.Price // of not knowing the axis better
}

// The page's measures in CSS pixels.
const (
	pageWidth   = 1000.0
	edge        = 40.0
	headHeight  = 96.0
	chartHeight = 260.0
	fieldSize   = 520.0
	footHeight  = 90.0
	letters     = 14.0 // size of ordinary text
	lineHeight  = 20.0
)

// Write writes the page of a night with so many targets.
//
// Error: that of the writer.
func Write(to io.Writer, ink theme.Ink, k kit.Kit, date plan.Date, nights []Night) error {
	tops, end := tops(nights)
	height := end + footHeight
	s := &svg{ink: ink}
	fmt.Fprintf(s, `<?xml version="1.0" encoding="UTF-8"?>`+"\n"+`<svg xmlns="http://www.w3.org/2000/svg" width="%s" height="%s" viewBox="0 0 %s %s" font-family="DejaVu Sans, Arial, sans-serif">`+"\n",
		number(pageWidth), number(height), number(pageWidth), number(height))
	fmt.Fprintf(s, "<title>%s</title>\n", escaped(title(k, date)))
	fmt.Fprintf(s, `<rect width="%s" height="%s" fill="%s"/>`+"\n", number(pageWidth), number(height), ink.Paper)
	s.head(k, date)
	for i, n := range nights {
		s.night(n, i, tops[i])
	}
	s.foot(end)
	s.WriteString("</svg>\n")
	_, err := io.WriteString(to, s.String())
	return err
}

// sheetHeight is how much of the page goes onto a sheet of A4 that is as wide as the page.
const sheetHeight = pageWidth * 297 / 210

// tops returns where each target begins, so that none is cut where a sheet ends, and where the last ends. What does not
// fit below another begins a new sheet.
func tops(nights []Night) (tops []float64, end float64) {
	end = headHeight
	for i, n := range nights {
		if sheet := math.Ceil(end/sheetHeight) * sheetHeight; i > 0 && end+n.height() > sheet {
			end = sheet
		}
		tops, end = append(tops, end), end+n.height()
	}
	return tops, end
}

func title(k kit.Kit, date plan.Date) string {
	return fmt.Sprintf("Night of %s, %s", date, k.Site.Name)
}

func (s *svg) head(k kit.Kit, date plan.Date) {
	s.text(point{edge, 44}, 26, theme.Answer, "start", title(k, date))
	if k.Example {
		s.text(point{pageWidth - edge, 44}, 18, theme.Caution, "end", "EXAMPLE: all of it invented")
	}
	s.text(point{edge, 72}, letters, theme.Faint, "start", "times local, "+zoneWords(k, date))
}

// foot writes the cautions: a printed page goes to the mount.
func (s *svg) foot(y float64) {
	for i, words := range []string{
		"Never point an unfiltered telescope or finder at the Sun: blindness and fire within a second.",
		"The derotator turns by itself at power-up and at every rewind: fingers, hair and cables clear. Two hands for what hangs high.",
		"Mains outdoors: residual-current protection, dry connectors. Local rules and licensed practice come first.",
	} {
		s.text(point{edge, y + 24 + float64(i)*lineHeight}, 13, theme.Faint, "start", words)
	}
}

// height is how much of the page a target takes: its name, the chart, the table of runs with its notes, the field
// beside its words.
func (n Night) height() float64 {
	return 50 + chartHeight + float64(len(n.rows())+len(n.order())+len(n.notes())+2)*lineHeight + fieldSize + 40
}

func (s *svg) night(n Night, number int, y float64) {
	s.text(point{edge, y + 24}, 20, theme.Text, "start", n.Told.Target.Called())
	y += 50
	s.chart(n, number, y)
	y += chartHeight
	y = s.remarks(n, s.table(n, y+lineHeight))
	s.field(n, number, point{edge, y + 10})
	s.words(n, point{edge + fieldSize + 30, y + 28})
}

// words writes what there is to say beside the field.
func (s *svg) words(n Night, at point) {
	const columns = 48 // of letters of the usual size in what the field leaves
	_, ways := n.Told.Answer()
	s.text(at, 17, theme.Answer, "start", ways[0])
	y := at.y + 1.6*lineHeight
	for _, said := range n.Told.Sentences() {
		for _, line := range strings.Split(ansi.Wordwrap(said.Text, columns, ""), "\n") {
			s.text(point{at.x, y}, letters, said.Role, "start", line)
			y += lineHeight
		}
		y += lineHeight / 3
	}
}
