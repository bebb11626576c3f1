// Package sheet is the sheet of keys: the cautions, and every key of the table that handles them.
package sheet

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"duskhand/ui/draw"
	"duskhand/ui/keys"
	"duskhand/ui/layout"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

// cautions are shown before the keys, since this sheet is what somebody opens who is new.
func cautions() []string {
	return []string{
		"Never point an unfiltered telescope or finder at the Sun.",
		"The derotator turns by itself at power-up and at every rewind: fingers, hair, cables clear.",
		"Two hands for what hangs high. Local rules and licensed practice come first.",
	}
}

// line is a row of the sheet: a heading, a key with what it does, or what goes on from the row above.
type line struct {
	heading, key, words string
	role                theme.Role // of the words
}

// laid is the sheet laid out for a window: its lines, in one column or two below each other.
type laid struct {
	lines   []line
	columns int
	rows    int // of all columns
	shown   int // rows of the window for all of it
}

// Sheet is how far the sheet has been moved.
type Sheet struct {
	from int // the row that shows first
}

// Moved moves the sheet by rows, in a window of the status.
func (s Sheet) Moved(by int, now screens.Status) Sheet {
	width := now.Width - 2*layout.Margin(now.Width)
	s.from = max(0, min(s.from+by, layOut(now, width, now.Height).last()))
	return s
}

// The widths of the sheet: of a key, and of a window in which two columns cut nothing.
const (
	widestKey  = 10
	twoColumns = 118
)

// layOut lays the sheet out.
func layOut(now screens.Status, width, height int) laid {
	s := laid{columns: 1, shown: max(1, height-1)}
	if width >= twoColumns {
		s.columns = 2
	}
	each := max(1, width/s.columns-1)
	for _, words := range append(remarks(now), cautions()...) {
		for _, row := range strings.Split(ansi.Wordwrap(words, each, ""), "\n") {
			s.lines = append(s.lines, line{heading: "", key: row, role: theme.Faint})
		}
	}
	for _, group := range groups(now) {
		s.lines = append(s.lines, group.lines(each)...)
	}
	s.rows = (len(s.lines) + s.columns - 1) / s.columns
	return s
}

// remarks say what kind of night this is where nothing of it stays.
func remarks(now screens.Status) []string {
	if now.Unkept == "" {
		return nil
	}
	return []string{now.Unkept}
}

// last is the furthest that the sheet can be moved on: its end stands in the last row but one then, below
// it that this is the end.
func (s laid) last() int {
	if s.rows > s.shown {
		return s.rows - max(1, s.shown-1)
	}
	return 0
}

// Draw lists every key under its heading. What is not possible now is quieter.
func (s Sheet) Draw(area draw.Area, now screens.Status) {
	area = layout.Inner(area)
	area.PutRight(area.Width(), 0, theme.Caution, now.Mark)
	area.Put(0, 0, theme.Key, "Keys")
	all := layOut(now, area.Width(), area.Height())
	from, rows := min(s.from, all.last()), all.shown
	if all.last() > 0 && rows > 1 {
		rows--
		words := "more below: " + now.Keys.Shown(keys.Down)
		if from == all.last() {
			words = "the end; back: " + now.Keys.Shown(keys.Up)
		}
		area.Put(0, area.Height()-1, theme.Key, words)
	}
	for y := range rows {
		all.drawRow(area.Area(0, y+1, area.Width(), 1), from+y)
	}
}

func (s laid) drawRow(area draw.Area, row int) {
	if row >= s.rows {
		return
	}
	for i := row; i < len(s.lines); i += s.rows {
		s.lines[i].draw(area.Area(i/s.rows*area.Width()/s.columns, 0, area.Width()/s.columns-1, 1))
	}
}

func (l line) draw(area draw.Area) {
	switch {
	case l.heading != "":
		area.Put(0, 0, theme.Text, l.heading)
	case l.words == "":
		area.Put(0, 0, l.role, l.key)
	default:
		area.Put(0, 0, theme.Key, l.key)
		area.Put(widestKey, 0, l.role, l.words)
	}
}
