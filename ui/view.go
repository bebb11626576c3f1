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
	grid := draw.BlankGrid(m.night.Status.Width, m.night.Status.Height)
	defer grid.Done()
	m.drawOn(grid.Whole())
	if m.config.Charset == draw.ASCII {
		grid.ToASCII()
	}
	if m.night.Status.Calls() {
		return m.theme.Calling().Render(grid)
	}
	return m.theme.Render(grid)
}

// drawOn draws the form, the sheet of keys, or the room that shows below the line of rooms.
func (m Model) drawOn(area draw.Area) {
	switch {
	case m.forming:
		m.form.Draw(area)
		return
	case m.helping:
		m.sheet.Draw(area, m.night.Status)
		return
	}
	s := m.roomStatus()
	top := m.night.Status.Height - s.Height
	if top > 0 && m.asking == nil { // while something is asked no room opens
		s.Rooms(area.Area(0, 0, s.Width, top))
	}
	area = area.Area(0, top, s.Width, s.Height)
	switch {
	case s.Tonight == nil:
		s.Header(area.Area(0, 0, s.Width, 2))
		area.PutCentre(s.Height/2, theme.Text, "reading the night …")
	case m.asking != nil && m.asking.Word() != "" && !s.Calls():
		s.Questioned(area, *m.asking)
	default:
		m.room().View(s, screens.Window{Area: area, Footer: m.footer()})
	}
}
