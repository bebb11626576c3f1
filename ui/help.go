package ui

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"duskhand/ui/draw"
	"duskhand/ui/keys"
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

// helpSheet is the sheet of keys laid out for a window: the cautions, an empty row, and rows of keys.
type helpSheet struct {
	cautions []string // wrapped
	keys     []keys.Bound
	columns  int
	rows     int // of keys
	shown    int // rows of the window for all of it
}

// sheet lays the help out. In a low window the keys take two columns.
func (m Model) sheet(width, height int) helpSheet {
	s := helpSheet{keys: m.keys.All(), columns: 1, shown: max(1, height-1)}
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
func (s helpSheet) last() int {
	if all := len(s.cautions) + 1 + s.rows; all > s.shown {
		return all - max(1, s.shown-1)
	}
	return 0
}

// helped moves the sheet of keys by rows.
func (m Model) helped(by int) Model {
	area := m.width - 2*margin(m.width)
	m.helpFrom = max(0, min(m.helpFrom+by, m.sheet(area, m.height).last()))
	return m
}

// drawHelp lists every key from the table that handles them. What is not possible now is quieter and last.
func (m Model) drawHelp(area draw.Area) {
	area = inner(area)
	area.PutRight(area.Width(), 0, theme.Caution, m.mark())
	area.Put(0, 0, theme.Key, "Keys")
	s := m.sheet(area.Width(), area.Height())
	from, rows := min(m.helpFrom, s.last()), s.shown
	if s.last() > 0 && rows > 1 {
		rows--
		words := "more below: " + m.keys.Shown(keys.Down)
		if from == s.last() {
			words = "the end; back: " + m.keys.Shown(keys.Up)
		}
		area.Put(0, area.Height()-1, theme.Key, words)
	}
	for y := range rows {
		m.drawSheetRow(area.Area(0, y+1, area.Width(), 1), s, from+y)
	}
}

func (m Model) drawSheetRow(area draw.Area, s helpSheet, row int) {
	if row < len(s.cautions) {
		area.Put(0, 0, theme.Faint, s.cautions[row])
		return
	}
	row -= len(s.cautions) + 1
	if row < 0 || row >= s.rows {
		return
	}
	for i := row; i < len(s.keys); i += s.rows {
		m.drawKey(area.Area(i/s.rows*area.Width()/s.columns, 0, area.Width()/s.columns-1, 1), s.keys[i])
	}
}

func (m Model) drawKey(area draw.Area, b keys.Bound) {
	role := theme.Text
	if !b.Possible {
		role = theme.Faint
	}
	const widestKey = 10
	area.Put(0, 0, theme.Key, b.Shown)
	area.Put(widestKey, 0, role, draw.Shorten(m.config.Charset, b.Words, area.Width()-widestKey))
}
