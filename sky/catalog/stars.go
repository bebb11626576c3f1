package catalog

import (
	_ "embed"
	"sort"
	"strings"
	"sync"

	"duskhand/sky"
)

//go:embed stars.csv
var starsCSV string

// FaintestStar is the V magnitude to which the catalogue's stars are complete and at which it ends.
const FaintestStar = 6.5

// The columns of stars.csv.
const (
	starHIP = iota
	starRA
	starDec
	starMag
	starMotionRA
	starMotionDec
	starBayer
	starFlamsteed
	starConstellation
	starIAUName
	starOtherNames
	starColumns
)

var allStars = sync.OnceValue(readStars)

func readStars() []Object {
	count := strings.Count(starsCSV, "\n") - 1
	list := make([]Object, 0, count)
	// One array for the names of all stars. If it outgrew this size, append would move on to a new
	// one and earlier stars would keep their slices of the old: dearer, not wrong.
	names := make([]string, 0, 2*count)
	for r := range rows("stars.csv", starsCSV, starColumns) {
		from := len(names)
		names = r.appendNames(names)
		list = append(list, Object{
			ID:            r.starID(),
			Names:         names[from:len(names):len(names)],
			Kind:          Star,
			Type:          "star",
			Constellation: r.fields[starConstellation],
			Star: sky.Star{
				Place: sky.J2000{
					RA:  sky.Angle(r.number(starRA)) * sky.Degree,
					Dec: sky.Angle(r.number(starDec)) * sky.Degree,
				},
				Motion: sky.ProperMotion{
					RA:  sky.Angle(r.known(starMotionRA).Value) * sky.MilliarcsecondPerYear,
					Dec: sky.Angle(r.known(starMotionDec).Value) * sky.MilliarcsecondPerYear,
				},
			},
			Magnitude: r.known(starMag),
		})
	}
	return list
}

// starID chooses the designation that observers use: a Greek letter, else Flamsteed's number, else a
// Latin letter, else the Hipparcos number.
func (r row) starID() string {
	bayer, flamsteed := r.fields[starBayer], r.fields[starFlamsteed]
	switch {
	case bayer != "" && bayer[0] >= 0x80: // Greek in UTF-8
		return bayer
	case flamsteed != "":
		return flamsteed
	case bayer != "":
		return bayer
	}
	return r.fields[starHIP]
}

// appendNames appends a star's names: the IAU's first; a star without one goes by its designation, and
// names that only some books give it come after that.
func (r row) appendNames(names []string) []string {
	if r.fields[starIAUName] != "" {
		names = append(names, r.fields[starIAUName])
	}
	id := r.starID()
	names = append(names, id)
	names = r.appendList(names, starOtherNames)
	for _, column := range []int{starBayer, starFlamsteed, starHIP} {
		if d := r.fields[column]; d != "" && d != id {
			names = append(names, d)
		}
	}
	return names
}

// Stars returns the stars of V ≤ faintest, brightest first.
//
// Range:  faintest above FaintestStar gives all the stars there are.
// Share:  the result is a part of one list kept for the life of the program; don't change it.
func Stars(faintest float64) []Object {
	list := allStars()
	n := sort.Search(len(list), func(i int) bool { return list[i].Magnitude.Value > faintest })
	return list[:n:n]
}
