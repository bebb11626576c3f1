package decide

import (
	"fmt"

	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/layout"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

// The year of the chosen target: a row for each month, a column for each night.

// calendarRows is what a year's calendar takes with words and legend: it ends in the month in which it begins.
const calendarRows = 13 + 4

// drawYear returns the rows taken.
func (m view) drawYear(area draw.Area) (rows int) {
	choice, ok := m.choice()
	if !ok {
		return 0
	}
	year := m.year
	if !year.known || year.of.target != choice.Target.Name || year.of.date != m.Date {
		words := "computing the year of " + choice.Target.Name + " …"
		if year.total > 0 {
			words = fmt.Sprintf("the year of %s: %d of %d nights computed", choice.Target.Name, year.done,
				year.total)
		}
		return layout.Paragraph(area, 0, theme.Text, words)
	}
	y := year.answer
	rows = layout.Paragraph(area, 0, theme.Text, choice.Target.Name+": "+say.Year(y))
	nights, most := facts.CalendarOf(y)
	if months := draw.CalendarRows(nights); area.Width() >= draw.CalendarWidth && area.Height()-rows >= months {
		draw.Calendar(area.Area(0, rows, area.Width(), months), m.Charset, nights)
		rows += months
	} else {
		draw.YearLine(area.Area(0, rows, area.Width(), 2), m.Charset, nights)
		rows += 2
	}
	if rows+layout.RowsOf(area, say.YearLegend(most)) <= area.Height() {
		rows += layout.Paragraph(area, rows, theme.Faint, say.YearLegend(most))
	}
	return rows
}
