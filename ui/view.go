package ui

import (
	"duskhand/ui/draw"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

// View lays the screen out on a grid of the window's size and turns it into text.
func (m Model) View() string {
	if m.night.Status.Width <= 0 || m.night.Status.Height <= 0 {
		return ""
	}
	grid := draw.NewGrid(m.night.Status.Width, m.night.Status.Height)
	area := grid.Whole()
	switch {
	case m.forming:
		m.form.Draw(area)
	case m.helping:
		m.sheet.Draw(area, m.night.Status)
	case m.night.Status.Tonight == nil:
		m.night.Status.Header(area.Area(0, 0, m.night.Status.Width, 2))
		area.PutCentre(m.night.Status.Height/2, theme.Text, "reading the night …")
	case m.asking != nil && m.asking.Word() != "" && !m.night.Status.Calls():
		m.night.Status.Questioned(area, *m.asking)
	default:
		m.room().View(m.night.Status, screens.Window{Area: area, Footer: m.footer()})
	}
	if m.config.Charset == draw.ASCII {
		grid.ToASCII()
	}
	return m.theme.Render(grid)
}
