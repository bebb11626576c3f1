// Package deep holds a deeper layer of stars. For drawing fields it has all to magnitude 10 but for the cores of
// dense clusters, and fainter ones where the sky is empty, so that every square degree has some nine; for telling
// where a frame looks, the ten brightest of each eighth of a square degree as well, some 45 in each whole one.
//
// Frame:  places are in the ICRF at epoch J2000.0, without proper motion. Where Tycho-2 has no mean place
// it gives that of 1991.25, which is off by 8.75 years of the star's motion; to V 6.5 those off by
// more than 5″ are mended.
// Error:  kept to 0.06″. Against Hipparcos's to V 6.5 the median difference is 0.13″, most of it the rounding
// of stars.csv to 0.0001°; 21 of 8,874 differ by more than 1″, at most 4.5″.
// Magnitude: Tycho's VT in steps of 0.05, of the fainter rest 0.02; VT − V is 0.07 in the median and 0.2 for red stars. It is V of the
// 426 stars to V 6.5 that come from sky/catalog because the index lacks them or has only a part of a pair.
// Source: Tycho-2 (Høg et al. 2000) by way of Debian's index files; see sky/catalog/CREDITS.md and gen/pack.py.
//
// Nothing is read before something asks for stars, and then only the cells of the sky that it needs: the
// file is a part of the program's own image, which the system pages in as it is touched.
package deep

import (
	"cmp"
	"slices"

	"duskhand/sky"
)

// Star is a star as the layer knows it: no name, no proper motion.
type Star struct {
	Place     sky.J2000
	Magnitude float64 // VT
}

// Near returns the stars for drawing of VT ≤ faintest within radius of centre, brightest first.
//
// Range:  a radius of 180° or more gives the whole sky; none if the radius is negative or an argument is
// not a number. centre needs no range of its own.
// Error:  a star within 0.06″ of the rim may be on the wrong side of it. Limits says what is missing.
func Near(centre sky.J2000, radius sky.Angle, faintest float64) []Star {
	circle, ok := newCap(centre, radius)
	if !ok {
		return nil
	}
	var found []Star
	for c := range circle.cells() {
		for i := c.first(); i < c.drawn(); i++ {
			magnitude := magnitudeAt(starsFrom + i*starBytes)
			if !(magnitude <= faintest) { // the rest of the cell is fainter; true also of NaN
				break
			}
			if place := c.place(i); circle.holds(place.Direction()) {
				found = append(found, Star{Place: place, Magnitude: magnitude})
			}
		}
	}
	slices.SortStableFunc(found, func(a, b Star) int { return cmp.Compare(a.Magnitude, b.Magnitude) })
	return found
}

// All returns every star of the layer within radius of centre, brightest first: for solving.
//
// Range, Error: as of Near.
func All(centre sky.J2000, radius sky.Angle) []Star {
	circle, ok := newCap(centre, radius)
	if !ok {
		return nil
	}
	var found []Star
	for c := range circle.cells() {
		drawn := c.drawn()
		for i := c.first(); i < c.end(); i++ {
			place := c.place(i)
			if !circle.holds(place.Direction()) {
				continue
			}
			magnitude := faintAt(starsFrom + i*starBytes)
			if i < drawn {
				magnitude = magnitudeAt(starsFrom + i*starBytes)
			}
			found = append(found, Star{Place: place, Magnitude: magnitude})
		}
	}
	slices.SortStableFunc(found, func(a, b Star) int { return cmp.Compare(a.Magnitude, b.Magnitude) })
	return found
}
