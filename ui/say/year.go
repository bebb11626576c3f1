package say

import (
	"fmt"
	"time"

	"duskhand/plan/choose"
	"duskhand/sky/words"
)

// Year says in one sentence when in the year a target is best.
func Year(y choose.Year) string {
	s, ok := y.Best()
	if !ok {
		return whyNever(y)
	}
	n := y.Nights[s.Best]
	said := fmt.Sprintf("best around %s: %s, %s", day(n), words.Lasting(n.MoonFree), phase(n.Illuminated))
	if s.Last > s.First {
		said += fmt.Sprintf("; nearly as good from %s to %s", day(y.Nights[s.First]), day(y.Nights[s.Last]))
	}
	return said
}

// whyNever says why no night has usable time without the Moon.
func whyNever(y choose.Year) string {
	var dark, usable bool
	for _, n := range y.Nights {
		dark, usable = dark || n.Dark > 0, usable || n.Usable > 0
	}
	switch {
	case !dark:
		return "never dark enough in all this time"
	case !usable:
		return neverAbove(y.Kit)
	}
	return "the Moon is up whenever it can be used"
}

func day(n choose.YearNight) string {
	return fmt.Sprintf("%d %s", n.Date.Day, n.Date.Month.String()[:3])
}

// phase names the lit share in a word or two. A disc less than a twentieth lit is within two days of new.
func phase(illuminated float64) string {
	switch {
	case illuminated < 0.05:
		return "new Moon"
	case illuminated > 0.95:
		return "full Moon"
	}
	return "Moon " + words.Percent(illuminated, 0) + " lit"
}

// YearLegend says what the marks of a target's year mean, whose best night has so many hours.
func YearLegend(most time.Duration) string {
	return fmt.Sprintf("height: usable hours without the Moon, up to %s; o: the Moon is up; ·: not usable", words.Lasting(most))
}
