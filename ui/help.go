package ui

import (
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// drawHelp lists every key from the table that handles them. What is not possible now is quieter.
func (m Model) drawHelp(area draw.Area) {
	area = inner(area)
	area.Put(0, 0, theme.Key, "Keys")
	area.PutRight(area.Width(), 0, theme.Caution, m.mark())
	for i, b := range m.keys.all() {
		role := theme.Text
		if !b.Enabled() {
			role = theme.Faint
		}
		area.Put(0, i+2, theme.Key, b.Help().Key)
		area.Put(7, i+2, role, draw.Shorten(m.config.Charset, b.Help().Desc, area.Width()-7))
	}
	lines := []string{
		"Never point an unfiltered telescope or finder at the Sun.",
		"The derotator turns by itself at power-up and at every rewind: fingers, hair, cables clear.",
		"Two hands for what hangs high. Local rules and licensed practice come first.",
	}
	for i, line := range lines {
		area.Put(0, len(m.keys.all())+3+i, theme.Faint, draw.Shorten(m.config.Charset, line, area.Width()))
	}
}
