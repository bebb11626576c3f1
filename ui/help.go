package ui

import (
	"github.com/charmbracelet/bubbles/key"

	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// drawHelp lists every key from the table that handles them, in two columns where the window is low. What
// is not possible now is quieter.
func (m Model) drawHelp(area draw.Area) {
	area = inner(area)
	area.PutRight(area.Width(), 0, theme.Caution, m.mark())
	area.Put(0, 0, theme.Key, "Keys")
	y := 1
	for _, line := range []string{
		"Never point an unfiltered telescope or finder at the Sun.",
		"The derotator turns by itself at power-up and at every rewind: fingers, hair, cables clear.",
		"Two hands for what hangs high. Local rules and licensed practice come first.",
	} {
		y += paragraph(area, y, theme.Faint, line)
	}
	keys := m.possibleFirst()
	rows := max(1, area.Height()-y-1)
	columns := min(2, (len(keys)+rows-1)/rows)
	if area.Width() < 60 || rows >= len(keys) {
		columns = 1
	}
	if even := (len(keys) + columns - 1) / columns; even < rows {
		rows = even
	}
	keys = keys[:min(len(keys), rows*columns)] // what can't be pressed now is last, and gives way
	for i, b := range keys {
		m.drawKey(area.Area(i/rows*area.Width()/columns, y+1+i%rows, area.Width()/columns-1, 1), b)
	}
}

// possibleFirst returns every binding, those that can be pressed now first: what does not fit is what can't.
func (m Model) possibleFirst() []*key.Binding {
	var possible, others []*key.Binding
	for _, b := range m.keys.all() {
		if b.Enabled() {
			possible = append(possible, b)
		} else {
			others = append(others, b)
		}
	}
	return append(possible, others...)
}

func (m Model) drawKey(area draw.Area, b *key.Binding) {
	role := theme.Text
	if !b.Enabled() {
		role = theme.Faint
	}
	const widestKey = 10
	area.Put(0, 0, theme.Key, b.Help().Key)
	area.Put(widestKey, 0, role, draw.Shorten(m.config.Charset, b.Help().Desc, area.Width()-widestKey))
}
