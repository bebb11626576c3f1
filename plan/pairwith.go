package plan

import (
	"slices"

	"duskhand/sky"
)

// degenerate is how near each other, or how near opposite, two stars give no attitude. Our choice: the
// kit's window keeps far away from it, and only what was sighted already is not held to that window.
const degenerate = sky.Degree

// Without returns the same sky without some stars, by their names: those that were looked for and not found.
func (s *StarSky) Without(names ...string) *StarSky {
	if len(names) == 0 {
		return s
	}
	c := *s
	c.Fit = slices.DeleteFunc(slices.Clone(s.Fit), func(c *Candidate) bool {
		return slices.Contains(names, c.Star.Name())
	})
	return &c
}

// PairsWith returns the pairs whose first star is settled, by its name, the best for a target in the
// direction aim first, at most so many; 0 for all. The first need not be fit any more: it has been centred
// already. There are none if the name is not known.
//
// Worth, frame and source are those of Pairs.
func (s *StarSky) PairsWith(first string, aim sky.Direction, atMost int) []Pair {
	one, ok := s.candidate(first)
	if !ok {
		return nil
	}
	known := Centring{one.Direction, one.Centring}.information()
	var all []ranked
	for j, c := range s.Fit {
		if c.Star.ID == one.Star.ID {
			continue
		}
		if r, fit := s.weigh(one, c, known, Centring{c.Direction, c.Centring}.information(), aim); fit {
			r.j, r.beside = int32(j), counted(s.isBeside(c)) // the first stands where it stands in all
			all = append(all, r)
		}
	}
	ordered(all)
	if atMost > 0 && len(all) > atMost {
		all = all[:atMost]
	}
	pairs, main := make([]Pair, len(all)), MainTelescope(s.Kit.Optics)
	for i, r := range all {
		pairs[i] = pairIn(r, one, s.Fit[r.j], s.Kit.Stars.Centring, aim)
		pairs[i].SecondFocuses = s.focuses(s.Fit[r.j], main)
		pairs[i].Beside = besideOf(pairs[i], pairs[0])
	}
	return pairs
}

// PairOf returns the pair of two stars by their names, in this order, whether they are fit or not. ok is
// false if a name is not known, or if the two stand within a degree of each other or of being opposite.
func (s *StarSky) PairOf(first, second string, aim sky.Direction) (p Pair, ok bool) {
	one, found := s.candidate(first)
	other, alsoFound := s.candidate(second)
	if !found || !alsoFound {
		return Pair{}, false
	}
	r := s.worth(one, other, Centring{one.Direction, one.Centring}.information(),
		Centring{other.Direction, other.Centring}.information(), aim)
	if r.separation < degenerate || r.separation > 180*sky.Degree-degenerate {
		return Pair{}, false
	}
	p = pairIn(r, one, other, s.Kit.Stars.Centring, aim)
	p.SecondFocuses = s.focuses(other, MainTelescope(s.Kit.Optics))
	p.Beside = besideOf(p, p)
	return p, true
}

// LeavingOf returns when a star, by its name, ceases to stand where it may: at the instant itself if it does
// not stand there now; not OK if it stays for the four hours that are looked at, or is not known.
func (s *StarSky) LeavingOf(name string) Leaving {
	c, ok := s.candidate(name)
	if !ok {
		return Leaving{}
	}
	w, spot := s.AlignmentLimits(), s.spotOf(c.Direction, s.At)
	if by, stands := s.unmet(spot, w); !stands {
		return Leaving{sky.Event{At: s.At, OK: true}, by, s.Kit.Horizon.ObstructionAt(spot.place.Azimuth)}
	}
	return s.leaving(s.frame.Fix(c.Star.Star), spot, w, s.At.Add(followed))
}

// candidate returns a star of the list by its name, fit or not.
func (s *StarSky) candidate(name string) (*Candidate, bool) {
	for _, c := range s.Fit {
		if c.Star.Name() == name {
			return c, true
		}
	}
	known := s.Kit.Stars.KnownNames()
	for i := range s.list {
		star := *s.list[i].star
		if called, listed := known[star.ID]; listed {
			star = named(star, called)
		}
		if star.Name() == name {
			r, _ := s.assess(&s.list[i], s.AlignmentLimits())
			c := r.Candidate
			c.Star = star
			// It was centred higher up: lower down the error would stand for air that nobody looks through.
			c.Centring = CentringError(s.Kit.Stars.Centring, max(c.Place.Altitude, s.Kit.Stars.Lowest))
			return &c, true
		}
	}
	return nil, false
}
