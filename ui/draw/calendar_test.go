package draw_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/ui/draw"
)

// nightsFrom returns nights from a date on: each seventh is the best, each fifth spoilt.
func nightsFrom(first time.Time, count int) (nights []draw.NightOfYear) {
	for i := range count {
		n := draw.NightOfYear{Date: first.AddDate(0, 0, i)}
		switch {
		case i%7 == 0:
			n.Height = 1
		case i%5 == 0:
			n.Spoilt = true
		}
		nights = append(nights, n)
	}
	return nights
}

func TestCalendarHasARowForEachMonth(t *testing.T) {
	nights := nightsFrom(time.Date(2026, 12, 5, 0, 0, 0, 0, time.UTC), 365)
	assert.Equal(t, 13, draw.CalendarRows(nights), "the last days are in December again")
	grid := draw.NewGrid(draw.CalendarWidth, 13)
	draw.Calendar(grid.Whole(), draw.Unicode, nights)
	lines := draw.Lines(grid)
	assert.Equal(t, "Dec     █····o·█··o···█o····o█···o·", lines[0], "from the 5th to the 31st")
	assert.True(t, strings.HasPrefix(lines[1], "Jan "), lines[1])
	assert.Equal(t, 4+28, len([]rune(lines[2])), "February 2027 has 28 days")
	assert.Equal(t, 4+4, len([]rune(lines[12])), "to the 4th")
	assert.Equal(t, 1, draw.CalendarRows(nights[:27]))
	assert.Zero(t, draw.CalendarRows(nil))
}

func TestYearLineShowsTheBestOfSeveralNights(t *testing.T) {
	nights := nightsFrom(time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC), 365)
	grid := draw.NewGrid(52, 2)
	draw.YearLine(grid.Whole(), draw.Unicode, nights)
	lines := draw.Lines(grid)
	assert.Equal(t, strings.Repeat("█", 52), lines[0], "seven nights a column, one of them the best")
	assert.Equal(t, "JFMAMJJASOND", strings.ReplaceAll(lines[1], " ", ""))
	narrow := draw.NewGrid(10, 1)
	draw.YearLine(narrow.Whole(), draw.ASCII, nights[:3])
	assert.Equal(t, []string{"=.."}, draw.Lines(narrow), "a night a column, and no more")
}
