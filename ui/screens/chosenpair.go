package screens

import "duskhand/ui/facts"

// WithStars returns the status with stars chosen anew, the pair in hand kept.
func (s Status) WithStars() Status {
	before := s.Stars
	s.Stars = s.Tonight.StarsAt(s.Now)
	s.Stars.Chosen = followed(before, s.Stars)
	return s
}

// followed keeps to the pair that was chosen in the list while that is ranked anew. Who has chosen none has
// the first, as has who chose one that will not do any more.
func followed(before, now facts.Stars) (chosen int) {
	if before.Chosen > 0 && before.Chosen < len(before.Pairs) {
		was := before.Pairs[before.Chosen]
		for i, p := range now.Pairs {
			if p.First.Star.ID == was.First.Star.ID && p.Second.Star.ID == was.Second.Star.ID {
				chosen = i
			}
		}
	}
	return chosen
}
