package plan

import (
	"duskhand/sky"
)

// Check is a third star to send the mount to after the alignment: if it stands where it should, both
// stars of the pair were the right ones.
type Check struct {
	Star     *Candidate // where it should appear is its Place
	Expected sky.Angle  // rms error to find there if all is right
	First    Mistake    // had another star been taken for the pair's first
	Second   Mistake    // or for its second
}

// Mistake is another star taken for one of the pair: the one that would be hardest to notice. Off is how
// far the check star would then be from the middle; not OK when no other star is near enough to be taken.
type Mistake struct {
	Taken string
	Off   sky.Angle
	OK    bool
}

// How far away another star may be taken for the right one at dusk, with few stars to go by; and how far
// off a check star is off the picture, so that no one overlooks it. Our choice.
const (
	mistakenWithin = 25 * sky.Degree
	plain          = 2 * sky.Degree
)

// CheckStar returns the third star that would tell best that a star of the pair was mistaken: the
// brightest of those that would be off by 2° or more whichever of its neighbours was taken, or else the
// one that would be off furthest. ok is false when no third star is fit.
//
// Error:  the mount is taken to fit its attitude by least squares, with both stars of equal weight.
func (s *StarSky) CheckStar(pair Pair) (check Check, ok bool) { return s.checkOf(pair, s.Fit) }

// CheckStarNamed returns the third star that was chosen for a pair before, as it is now; ok is false when it is not
// fit any more.
//
// Error: as CheckStar's.
func (s *StarSky) CheckStarNamed(pair Pair, name string) (check Check, ok bool) {
	for _, c := range s.Fit {
		if c.Star.Name() == name {
			return s.checkOf(pair, []*Candidate{c})
		}
	}
	return Check{}, false
}

// checkOf is the best check star of some.
func (s *StarSky) checkOf(pair Pair, among []*Candidate) (check Check, ok bool) {
	first, second := s.mistakes(pair.First, pair.Second), s.mistakes(pair.Second, pair.First)
	var best sky.Angle
	for _, c := range among { // brightest first, so that of equals the brightest stays
		if c.Star.ID == pair.First.Star.ID || c.Star.ID == pair.Second.Star.ID {
			continue
		}
		one, other := hardest(first, c), hardest(second, c)
		off := plain
		for _, m := range []Mistake{one, other} {
			if m.OK {
				off = min(off, m.Off)
			}
		}
		if !ok || off > best {
			check, ok, best = Check{Star: c, First: one, Second: other}, true, off
		}
	}
	if ok {
		p := Centring{pair.First.Direction, pair.First.Centring}.information().
			plus(Centring{pair.Second.Direction, pair.Second.Centring}.information()).inverse()
		check.Expected = p.Pointing(check.Star.Direction)
	}
	return check, ok
}

// mistaken is an alignment gone wrong: the mount's attitude after another star was taken.
type mistaken struct {
	taken string
	turn  triad
}

// mistakes returns the attitudes that result from taking a listed neighbour for star, with other right.
func (s *StarSky) mistakes(star, other *Candidate) []mistaken {
	var all []mistaken
	try := func(c *Candidate) {
		apart := c.Direction.Separation(star.Direction)
		if apart > mistakenWithin || apart < indistinct || c.Star.ID == other.Star.ID || c.Place.Altitude < 0 {
			return
		}
		turn := attitude([]sky.Direction{c.Direction, other.Direction}, []sky.Direction{star.Direction, other.Direction}, []float64{1, 1})
		all = append(all, mistaken{c.Star.Name(), turn})
	}
	for _, c := range s.Fit {
		try(c)
	}
	for i := range s.Unfit {
		try(&s.Unfit[i].Candidate)
	}
	return all
}

// hardest returns the mistake that shows least at a star.
func hardest(all []mistaken, at *Candidate) (least Mistake) {
	for _, m := range all {
		off := m.turn.apply(at.Direction).Separation(at.Direction)
		if !least.OK || off < least.Off {
			least = Mistake{m.taken, off, true}
		}
	}
	return least
}
