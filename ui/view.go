package ui

import (
	"duskhand/ui/draw"
	"duskhand/ui/keys"
	"duskhand/ui/theme"
)

// View lays the screen out on a grid of the window's size and turns it into text.
func (m Model) View() string {
	if m.width <= 0 || m.height <= 0 {
		return ""
	}
	if m.grid.Width() != m.width || m.grid.Height() != m.height {
		*m.grid = *draw.NewGrid(m.width, m.height)
	}
	m.grid.Clear()
	area := m.grid.Whole()
	switch {
	case m.forming:
		m.form.Draw(area)
	case m.helping:
		m.drawHelp(area)
	case m.tonight == nil:
		m.drawHeader(area.Area(0, 0, m.width, 2))
		area.PutCentre(m.height/2, theme.Text, "reading the night …")
	case m.screen == keys.NightScreen:
		m.drawNight(area)
	case m.screen == keys.StarsScreen:
		m.drawStars(area)
	case m.screen == keys.FocusScreen:
		m.drawFocus(area)
	case m.screen == keys.FrameScreen:
		m.drawFrame(area)
	case m.screen == keys.SubsScreen:
		m.drawSubs(area)
	case m.screen == keys.DecideScreen:
		m.drawDecide(area)
	case m.screen == keys.AlarmsScreen:
		m.drawAlarms(area)
	case m.screen == keys.StepsScreen:
		m.drawSteps(area)
	case m.digitsOnly:
		m.drawDigits(area)
	default:
		m.drawRun(area)
	}
	if m.config.Charset == draw.ASCII {
		m.grid.ToASCII()
	}
	return m.theme.Render(m.grid)
}

// margin is the blank column at the left and right of every screen, given up where it is narrow.
func margin(width int) int {
	if width < 60 {
		return 0
	}
	return 1
}

// inner returns area without its margins.
func inner(area draw.Area) draw.Area {
	side := margin(area.Width())
	return area.Area(side, 0, area.Width()-2*side, area.Height())
}

// slice returns one band of area, with margins.
func slice(area draw.Area, b band) draw.Area {
	return inner(area.Area(0, b.top, area.Width(), b.height))
}

// put writes the longest of several ways to say a thing that fits.
func put(area draw.Area, role theme.Role, ways ...string) {
	area.Put(0, 0, role, longestThatFits(area.Width(), ways...))
}
