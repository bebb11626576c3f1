package draw

import (
	"time"

	"duskhand/ui/theme"
)

// NightOfYear is one night of a calendar.
type NightOfYear struct {
	Date   time.Time // of the evening; only year, month and day count
	Height float64   // of its block, 0 to 1; 0 for none
	Spoilt bool      // without a block: an o instead of a dot
}

// CalendarWidth is the columns that a calendar takes: the month's name and a column for each day.
const CalendarWidth = calendarLabel + 31

const calendarLabel = 4

// CalendarRows returns how many rows a calendar of consecutive nights takes: one for each month.
func CalendarRows(nights []NightOfYear) int {
	if len(nights) == 0 {
		return 0
	}
	return monthsBetween(nights[0].Date, nights[len(nights)-1].Date) + 1
}

func monthsBetween(a, b time.Time) int { return (b.Year()-a.Year())*12 + int(b.Month()-a.Month()) }

// Calendar draws consecutive nights, a row for each month and a column for each day, as blocks; o and · stand
// where there is none.
func Calendar(area Area, charset Charset, nights []NightOfYear) {
	labelled := -1
	for _, n := range nights {
		row := monthsBetween(nights[0].Date, n.Date)
		if row > labelled {
			area.Put(0, row, theme.Faint, n.Date.Month().String()[:3])
			labelled = row
		}
		drawNight(area.Area(calendarLabel+n.Date.Day()-1, row, 1, 1), charset, n)
	}
}

// YearLine draws consecutive nights in one row, the best of several in each column, with the first letters of
// the months below where they begin.
func YearLine(area Area, charset Charset, nights []NightOfYear) {
	width := min(area.Width(), len(nights))
	for x := range width {
		some := nights[x*len(nights)/width : (x+1)*len(nights)/width]
		best := some[0]
		for _, n := range some {
			if n.Height > best.Height || best.Height == 0 && n.Spoilt {
				best = n
			}
		}
		drawNight(area.Area(x, 0, 1, 1), charset, best)
		if last := some[len(some)-1].Date; last.Day() <= len(some) {
			area.Put(x, 1, theme.Faint, last.Month().String()[:1])
		}
	}
}

func drawNight(cell Area, charset Charset, n NightOfYear) {
	switch {
	case n.Height > 0:
		Sparkline(cell, charset, theme.Text, []Sample{{Value: n.Height}}, 0, 1)
	case n.Spoilt:
		cell.PutRune(0, 0, theme.Faint, 'o')
	default:
		cell.PutRune(0, 0, theme.Faint, charset.pick('·', '.'))
	}
}

// Lines returns what stands on a grid as text, without blanks at the ends of its lines.
func Lines(g *Grid) []string {
	lines := make([]string, g.Height())
	for y := range lines {
		blanks := 0
		for x := range g.Width() {
			first, marks, _ := g.Cell(x, y)
			if first == 0 || first == ' ' {
				blanks++
				continue
			}
			if first == theme.Continued {
				continue
			}
			for ; blanks > 0; blanks-- {
				lines[y] += " "
			}
			lines[y] += string(first) + marks
		}
	}
	return lines
}
