package facts

import (
	"time"

	"duskhand/plan/choose"
	"duskhand/ui/draw"
)

// CalendarOf returns a target's nights as they are drawn, as high as the usable time without the Moon against
// the most of the year, and that most.
func CalendarOf(y choose.Year) (nights []draw.NightOfYear, most time.Duration) {
	for _, n := range y.Nights {
		most = max(most, n.MoonFree)
	}
	for _, n := range y.Nights {
		night := draw.NightOfYear{Date: time.Date(n.Date.Year, n.Date.Month, n.Date.Day, 0, 0, 0, 0, time.UTC), Spoilt: n.Usable > 0}
		if most > 0 {
			night.Height = float64(n.MoonFree) / float64(most)
		}
		nights = append(nights, night)
	}
	return nights, most
}
