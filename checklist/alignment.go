package checklist

import "time"

// Facts that name the stars of the alignment: what a step keeps of them freezes the pair.
const (
	factFirstStar  = "star_1"
	factSecondStar = "star_2"
	factPair       = "pair"
)

// Alignment is what has been said of the stars of the alignment, by their names in the catalogue.
type Alignment struct {
	First  string    // the star that was said or sighted first; "" if none was
	Since  time.Time // when that was; zero if none was
	Second string    // chosen for it then, or the second that was said or sighted; "" if nobody knows
	Done   bool      // the second was said or sighted
	Missed []Missed  // stars that were not found, in the order in which that was said
}

// Missed is a star of the alignment that was not found, and when that was said.
type Missed struct {
	Star string
	At   time.Time
}

// MissedBy returns the stars that had not been found by an instant.
func (a Alignment) MissedBy(at time.Time) (stars []string) {
	for _, m := range a.Missed {
		if !m.At.After(at) {
			stars = append(stars, m.Star)
		}
	}
	return stars
}

// Alignment returns what has been said of the alignment's stars: by steps that kept their words, and by
// sights.
func (n Night) Alignment() (a Alignment) {
	for _, m := range n.marks {
		if m.kept != nil && m.by != KindStepSkipped {
			a.take(m)
		}
	}
	for _, c := range n.Centred { // of journals that keep no words, and stars sighted without a step
		switch {
		case a.First == "":
			a.First, a.Since = c.Star, c.At
		case !a.Done && c.Star != a.First:
			a.Second, a.Done = c.Star, true
		}
	}
	return a
}

func (a *Alignment) take(m mark) {
	first, second := m.kept.Values[factFirstStar], m.kept.Values[factSecondStar]
	failed := m.by == KindStepFailed
	switch {
	case failed && first != "":
		a.Missed = append(a.Missed, Missed{first, m.at})
		if a.First == first { // said to be centred, and taken back
			*a = Alignment{Missed: a.Missed}
		}
	case failed && second != "":
		a.Missed = append(a.Missed, Missed{second, m.at})
		a.Done = a.Done && a.Second != second
	case first != "" && a.First == "":
		a.First, a.Since, a.Second = first, m.at, second
	case first == "" && second != "":
		a.Second, a.Done = second, true
	}
}

// namesStar tells whether what was kept names a star of the alignment.
func (k Kept) namesStar() bool { return k.Values[factFirstStar]+k.Values[factSecondStar] != "" }
