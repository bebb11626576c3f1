package plan

import (
	"cmp"
	"slices"

	"duskhand/sky"
)

// alike is by which share two pairs' pointing errors may differ and still count as equal: nobody sees the
// difference in one night. Our choice.
const alike = 0.05

// besideObstruction is how near something that the horizon profile names a star is a bad choice: a person
// who stands a step aside no longer sees it. Our choice.
const besideObstruction = 3 * sky.Degree

// ranked is a pair while it is sorted: the two places in Fit and what counts.
type ranked struct {
	i, j            int32
	unnamed         int // of the two, how many have no name of the IAU
	beside          int // how many stand beside a named obstruction
	fainter         float64
	separation      sky.Angle
	pointing, rolls sky.Angle
}

// ordered sorts pairs by worth: those of stars with a name before those without, then by the pointing error.
// Of those whose errors are alike the pair clear of obstructions comes first, then the one whose fainter star
// is the brighter, then the one that turns less about the target.
//
// Each group of alike pairs begins with the best that is left: to call neighbours alike would chain good pairs
// to bad ones.
func ordered(all []ranked) {
	slices.SortFunc(all, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(a.unnamed, b.unnamed), cmp.Compare(a.pointing, b.pointing), cmp.Compare(a.i, b.i), cmp.Compare(a.j, b.j))
	})
	for from := 0; from < len(all); {
		to := from + 1
		for to < len(all) && all[to].unnamed == all[from].unnamed && all[to].pointing <= all[from].pointing*(1+alike) {
			to++
		}
		slices.SortStableFunc(all[from:to], func(a, b ranked) int {
			return cmp.Or(cmp.Compare(a.beside, b.beside), cmp.Compare(a.fainter, b.fainter), cmp.Compare(a.rolls, b.rolls))
		})
		from = to
	}
}

// besideNamed tells of each fit star whether it stands within a few degrees of something that the horizon
// profile names.
func (s *StarSky) besideNamed() []bool {
	all := make([]bool, len(s.Fit))
	for i, c := range s.Fit {
		all[i] = s.isBeside(c)
	}
	return all
}

// isBeside looks at the tops of the profile, which may be as thin as a mast, and then about the star, which may
// stand above a long roof.
func (s *StarSky) isBeside(c *Candidate) bool {
	for _, top := range s.skyline {
		if top.Name != "" && (sky.Horizontal{Altitude: top.Altitude, Azimuth: top.Azimuth}).Direction().Separation(c.Direction) < besideObstruction {
			return true
		}
	}
	const around = 24 // looks about the star, 0.8° apart on the sky
	for step := range around {
		turn := sky.Turn * sky.Angle(step) / around
		azimuth := c.Place.Azimuth + besideObstruction*sky.Angle(turn.Sin()/max(c.Place.Altitude.Cos(), 0.01))
		altitude := s.apparent(c.Place.Altitude) + besideObstruction*sky.Angle(turn.Cos())
		if s.Kit.Horizon.ObstructionAt(azimuth.Wrapped()) != "" && altitude < s.Kit.Horizon.At(azimuth.Wrapped()) {
			return true
		}
	}
	return false
}
