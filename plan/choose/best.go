package choose

import (
	"math"
	"time"
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
