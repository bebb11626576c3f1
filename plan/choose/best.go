package choose

import (
	"fmt"
	"math"
	"time"

	"duskhand/sky/words"
)

// Stretch is a run of nights around one, by their numbers in the year, both included.
type Stretch struct{ First, Best, Last int }

// keepsUp is the share of the best night's moonless time that a night must have to belong to its stretch.
const keepsUp = 0.8

// Best returns the nights around the one with the most usable, moonless time, the one with the higher target
// if several have it, as far as neighbours keep up with four fifths of it. ok is false when no night of the
// year has any.
func (y Year) Best() (s Stretch, ok bool) {
	best := -1
	for i, n := range y.Nights {
		if n.MoonFree > 0 && (best < 0 || y.better(i, best)) {
			best = i
		}
	}
	if best < 0 {
		return Stretch{}, false
	}
	least := time.Duration(keepsUp * float64(y.Nights[best].MoonFree))
	s = Stretch{best, best, best}
	for s.First > 0 && y.Nights[s.First-1].MoonFree >= least {
		s.First--
	}
	for s.Last < len(y.Nights)-1 && y.Nights[s.Last+1].MoonFree >= least {
		s.Last++
	}
	return s, true
}

// better compares to the minute, so that the higher target decides between nights alike.
func (y Year) better(i, j int) bool {
	a, b := y.Nights[i], y.Nights[j]
	if m, n := math.Round(a.MoonFree.Minutes()), math.Round(b.MoonFree.Minutes()); m != n {
		return m > n
	}
	return a.Highest > b.Highest
}

// Words says in one sentence when the target is best.
func (y Year) Words() string {
	s, ok := y.Best()
	if !ok {
		return y.whyNever()
	}
	n := y.Nights[s.Best]
	words := fmt.Sprintf("best around %s: %s, %s", day(n), words.Lasting(n.MoonFree), phase(n.Illuminated))
	if s.Last > s.First {
		words += fmt.Sprintf("; nearly as good from %s to %s", day(y.Nights[s.First]), day(y.Nights[s.Last]))
	}
	return words
}

// whyNever says why no night has usable time without the Moon.
func (y Year) whyNever() string {
	var dark, usable bool
	for _, n := range y.Nights {
		dark, usable = dark || n.Dark > 0, usable || n.Usable > 0
	}
	switch {
	case !dark:
		return "never dark enough in all this time"
	case !usable:
		return fmt.Sprintf("never above %s and clear of the horizon in the dark", words.Degrees(y.Kit.Mount.Floor, 0))
	}
	return "the Moon is up whenever it can be used"
}

func day(n YearNight) string { return fmt.Sprintf("%d %s", n.Date.Day, n.Date.Month.String()[:3]) }

// phase names the lit share in a word or two. A disc less than a twentieth lit is within two days of new.
func phase(illuminated float64) string {
	switch {
	case illuminated < 0.05:
		return "new Moon"
	case illuminated > 0.95:
		return "full Moon"
	}
	return fmt.Sprintf("Moon %s lit", words.Percent(illuminated, 0))
}
