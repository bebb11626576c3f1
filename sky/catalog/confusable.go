package catalog

import (
	"cmp"
	"slices"

	"duskhand/sky"
)

// When a star is centred by eye on the camera's picture, another star is a danger if it stands in the
// same field and is bright, or nearly as bright. 30′ alone would miss Lesath beside Shaula.
const (
	brightNeighbourMag  = 5.0
	brightNeighbour     = 30 * sky.Arcminute
	similarNeighbourMag = 2.5 // fainter than the star, at most
	similarNeighbour    = 45 * sky.Arcminute
	oneStar             = 60 * sky.Arcsecond // closer pairs are one star to the camera
)

// lookAlikes are stars further apart that the eye takes for each other, because the pattern around them
// is alike. Common practice; every star stands for the others of its row.
func lookAlikes() [][]string {
	return [][]string{
		{"δ Ori", "ε Ori", "ζ Ori"}, // the belt
		{"κ Sco", "ι¹ Sco"},         // the sting, with the next pair
		{"λ Sco", "κ Sco"},
		{"κ Vel", "N Vel"}, // the corner of the False Cross and its neighbour
	}
}

// Confusable returns the stars that star could be mistaken for when it is centred, brightest first:
// any star of V ≤ 5 within 30′, any at most 2.5 magnitudes fainter within 45′, and the known
// look-alikes further apart. A companion within 60″ is left out: the camera shows one star.
//
// Range:  neighbours to FaintestStar; nothing for a deep-sky object.
// Source: common practice, with the limits chosen so that Shaula has Lesath.
func Confusable(star Object) []Object {
	if star.Kind != Star {
		return nil
	}
	var found []Object
	alike, stars := lookAlikesOf(star.ID), Stars(FaintestStar)
	for i := range stars {
		if other := &stars[i]; isDanger(&star, other) || slices.Contains(alike, other.ID) {
			found = append(found, *other)
		}
	}
	slices.SortStableFunc(found, func(a, b Object) int { return cmp.Compare(a.Magnitude.Value, b.Magnitude.Value) })
	return found
}

func isDanger(star, other *Object) bool {
	a, b := star.Star.Place, other.Star.Place
	if (a.Dec - b.Dec).Abs() > similarNeighbour {
		return false
	}
	bright := other.Magnitude.Value <= brightNeighbourMag
	similar := star.Magnitude.OK && other.Magnitude.Value <= star.Magnitude.Value+similarNeighbourMag
	if !bright && !similar {
		return false
	}
	apart := a.Direction().Separation(b.Direction())
	return apart > oneStar && (bright && apart <= brightNeighbour || similar && apart <= similarNeighbour)
}

// lookAlikesOf returns the IDs of the stars that the eye takes for the one of the given ID.
func lookAlikesOf(id string) []string {
	var alike []string
	for _, group := range lookAlikes() {
		if slices.Contains(group, id) {
			alike = append(alike, slices.DeleteFunc(group, func(other string) bool { return other == id })...)
		}
	}
	return alike
}
