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

// laid is the sheet laid out for a window: the cautions, an empty row, and rows of keys.
type laid struct {
	cautions []string // wrapped
	keys     []keys.Bound
	columns  int
	rows     int // of keys
	shown    int // rows of the window for all of it
}

// Sheet is how far the sheet has been moved.
type Sheet struct {
	from int // the row that shows first
}

// Moved moves the sheet by rows, in a window of the status.
func (s Sheet) Moved(by int, now screens.Status) Sheet {
	width := now.Width - 2*layout.Margin(now.Width)
	s.from = max(0, min(s.from+by, layOut(now.Keys, width, now.Height).last()))
	return s
}

// layOut lays the sheet out. In a low window the keys take two columns.
func layOut(table keys.Table, width, height int) laid {
	s := laid{keys: table.All(), columns: 1, shown: max(1, height-1)}
	for _, each := range cautions() {
		s.cautions = append(s.cautions, strings.Split(ansi.Wordwrap(each, max(1, width), ""), "\n")...)
	}
	if width >= 60 && len(s.cautions)+1+len(s.keys) > s.shown {
		s.columns = 2
	}
	s.rows = (len(s.keys) + s.columns - 1) / s.columns
	return s
}

// last is the furthest that the sheet can be moved on: its end stands in the last row but one then, below
// it that this is the end.
func (s laid) last() int {
	if all := len(s.cautions) + 1 + s.rows; all > s.shown {
		return all - max(1, s.shown-1)
	}
	return 0
}

// Draw lists every key. What is not possible now is quieter and last.
func (s Sheet) Draw(area draw.Area, now screens.Status) {
	area = layout.Inner(area)
	area.PutRight(area.Width(), 0, theme.Caution, now.Mark)
	area.Put(0, 0, theme.Key, "Keys")
	all := layOut(now.Keys, area.Width(), area.Height())
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
		all.drawRow(area.Area(0, y+1, area.Width(), 1), now.Charset, from+y)
	}
}

func (s laid) drawRow(area draw.Area, charset draw.Charset, row int) {
	if row < len(s.cautions) {
		area.Put(0, 0, theme.Faint, s.cautions[row])
		return
	}
	row -= len(s.cautions) + 1
	if row < 0 || row >= s.rows {
		return
	}
	for i := row; i < len(s.keys); i += s.rows {
		drawKey(area.Area(i/s.rows*area.Width()/s.columns, 0, area.Width()/s.columns-1, 1), charset, s.keys[i])
	}
}

func drawKey(area draw.Area, charset draw.Charset, b keys.Bound) {
	role := theme.Text
	if !b.Possible {
		role = theme.Faint
	}
	const widestKey = 10
	area.Put(0, 0, theme.Key, b.Shown)
	area.Put(widestKey, 0, role, draw.Shorten(charset, b.Words, area.Width()-widestKey))
}
