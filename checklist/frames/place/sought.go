package place

import (
	"math"
	"slices"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// mostStars is how many stars of the alignment are tried: each costs some hundredths of a second. Our choice.
const mostStars = 24

// Of returns where the telescope may look: at the target as it is wanted on the chip, where the last light
// looked, and at the targets of earlier runs. Until the first run it may as well look at a star: at those of the
// alignment that are named, then at the brightest that are fit for it; stars is nil afterwards.
func Of(n checklist.Night, target kit.Target, named []catalog.Object, stars *plan.StarSky) []Sought {
	sought := []Sought{{target.Name, framing.Middle(target)}}
	if stars != nil {
		all := starsOf(named, stars)
		sought = slices.Concat(all[:len(named)], sought, all[len(named):])
	}
	if placed := n.Placed(); len(placed) > 0 {
		last := placed[len(placed)-1].Placed
		sought = append(sought, Sought{last.Near, last.Centre()})
	}
	for i := len(n.Runs) - 1; i >= 0; i-- {
		if t := n.Runs[i].Target; t != nil && !slices.ContainsFunc(sought, func(s Sought) bool { return s.Name == t.Name }) {
			sought = append(sought, Sought{t.Name, t.Star.Place})
		}
	}
	return sought
}

func starsOf(named []catalog.Object, stars *plan.StarSky) []Sought {
	sought := make([]Sought, 0, len(named)+mostStars)
	for _, star := range named {
		sought = append(sought, Sought{star.Name(), star.Star.Place})
	}
	for _, c := range stars.Fit[:min(mostStars, len(stars.Fit))] {
		if !slices.ContainsFunc(named, func(o catalog.Object) bool { return o.ID == c.Star.ID }) {
			sought = append(sought, Sought{c.Star.Name(), c.Star.Star.Place})
		}
	}
	return sought
}

// offChip is how far from the middle a star is still the one that was meant: a finder's field. Our choice.
const offChip = 1.5 * sky.Degree

// AtStar is which of the stars that the eye sees a light shows, and how far it stands off the middle.
type AtStar struct {
	Star catalog.Object
	Off  sky.Angle
}

// StarAt returns the star that a light was pointed at: of those no fainter than a magnitude, the brightest that
// is on the chip or near it for its brightness. ok is false when there is none within 1.5°.
//
// Own derivation: of two stars the one is taken for which 2.5·log of the distance squared, plus the magnitude, is
// less; a star twice as far off has to be 1.5 magnitudes brighter. What is nearer than a twentieth of a degree, by
// which a mount errs in any case, counts as that.
func StarAt(p checklist.PlacedBody, faintest float64) (at AtStar, ok bool) {
	const least = 0.05 * sky.Degree
	middle := p.Centre().Direction()
	best := 0.0
	for _, star := range catalog.Stars(faintest) {
		off := middle.Separation(star.Star.Place.Direction())
		if off > offChip {
			continue
		}
		if rank := star.Magnitude.Value + 5*math.Log10(float64(max(off, least))); !ok || rank < best {
			at, best, ok = AtStar{star, off}, rank, true
		}
	}
	return at, ok
}
