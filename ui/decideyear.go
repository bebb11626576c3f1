package ui

import (
	"fmt"
	"time"

	"duskhand/plan/choose"
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// The year of the chosen target: a row for each month, a column for each night.

// A year that begins within a month ends in the same month; calendarRows is what the calendar takes with words
// and legend.
const (
	monthsShown  = 13
	calendarRows = monthsShown + 4
	labelWidth   = 4
	daysShown    = 31
)

// drawYear returns the rows taken.
func (m Model) drawYear(area draw.Area) (rows int) {
	choice, ok := m.choice()
	if !ok {
		return 0
	}
	year := m.decide.year
	if !year.known || year.of.target != choice.Target.Name || year.of.date != m.date {
		words := "computing the year of " + choice.Target.Name + " …"
		if year.total > 0 {
			words = fmt.Sprintf("the year of %s: %d of %d nights computed", choice.Target.Name, year.done, year.total)
		}
		return paragraph(area, 0, theme.Text, words)
	}
	y := year.answer
	rows = paragraph(area, 0, theme.Text, choice.Target.Name+": "+y.Words())
	most := mostMoonFree(y)
	if area.Width() >= labelWidth+daysShown && area.Height()-rows >= monthsShown {
		rows += m.drawCalendar(area.Area(0, rows, area.Width(), monthsShown), y, most)
	} else {
		rows += m.drawYearLine(area.Area(0, rows, area.Width(), 2), y, most)
	}
	legend := fmt.Sprintf("height: usable hours without the Moon, up to %s; o: the Moon is up; ·: not usable", duration(most))
	if area.Height()-rows >= 2 {
		rows += paragraph(area, rows, theme.Faint, legend)
	}
	return rows
}

func mostMoonFree(y choose.Year) (most time.Duration) {
	for _, n := range y.Nights {
		most = max(most, n.MoonFree)
	}
	return most
}

// drawCalendar draws a year that begins tonight and returns the rows taken.
func (m Model) drawCalendar(area draw.Area, y choose.Year, most time.Duration) (rows int) {
	first := y.Nights[0].Date
	for _, n := range y.Nights {
		row := (n.Date.Year-first.Year)*12 + int(n.Date.Month-first.Month)
		if row == rows {
			area.Put(0, row, theme.Faint, n.Date.Month.String()[:3])
			rows++
		}
		m.drawNightOfYear(area.Area(labelWidth+n.Date.Day-1, row, 1, 1), n, most)
	}
	return rows
}

// drawNightOfYear draws one night in one cell.
func (m Model) drawNightOfYear(cell draw.Area, n choose.YearNight, most time.Duration) {
	switch {
	case n.MoonFree > 0:
		draw.Sparkline(cell, m.config.Charset, theme.Text, []draw.Sample{{Value: n.MoonFree.Hours()}}, 0, most.Hours())
	case n.Usable > 0:
		cell.PutRune(0, 0, theme.Faint, 'o')
	default:
		cell.PutRune(0, 0, theme.Faint, '·')
	}
}

// drawYearLine draws the year in one row, of several nights the best, with the months' first letters below.
func (m Model) drawYearLine(area draw.Area, y choose.Year, most time.Duration) int {
	width := min(area.Width(), len(y.Nights))
	for x := range width {
		from, to := x*len(y.Nights)/width, (x+1)*len(y.Nights)/width
		best := y.Nights[from]
		for _, n := range y.Nights[from:to] {
			if n.MoonFree > best.MoonFree || best.MoonFree == 0 && n.Usable > best.Usable {
				best = n
			}
		}
		m.drawNightOfYear(area.Area(x, 0, 1, 1), best, most)
		if last := y.Nights[to-1].Date; last.Day <= to-from && last.Day > 0 {
			area.Put(x, 1, theme.Faint, last.Month.String()[:1])
		}
	}
	return 2
}
