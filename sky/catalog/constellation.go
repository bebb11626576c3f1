package catalog

import (
	_ "embed"
	"strings"
	"sync"

	"github.com/soniakeys/meeus/v3/coord"
	"github.com/soniakeys/meeus/v3/precess"
	"github.com/soniakeys/unit"

	"duskhand/sky"
)

//go:embed boundaries.csv
var boundariesCSV string

//go:embed constellations.csv
var constellationsCSV string

// boundary is one row of Roman's table: a strip north of decFrom, in the equinox B1875.0.
type boundary struct {
	raFrom, raTo, decFrom sky.Angle
	constellation         string
}

var boundaries = sync.OnceValue(func() []boundary {
	list := make([]boundary, 0, strings.Count(boundariesCSV, "\n"))
	for r := range rows("boundaries.csv", boundariesCSV, 4) {
		list = append(list, boundary{
			raFrom:        sky.Angle(r.number(0)) * sky.Hour,
			raTo:          sky.Angle(r.number(1)) * sky.Hour,
			decFrom:       sky.Angle(r.number(2)) * sky.Degree,
			constellation: r.fields[3],
		})
	}
	return list
})

// b1875 is the Besselian epoch 1875.0 of the boundaries as a Julian year: JD 2405889.2586.
const b1875 = 1875.0013

// Constellation returns the IAU abbreviation of the constellation that place lies in, "Dor".
//
// Range:  the whole sky; a place on a boundary belongs to the constellation north or east of it.
// Error:  the boundaries as drawn to 1″ or so; the table rounds them to 0.0001 h.
// Source: Roman 1987, PASP 99, 695, with precession by Meeus, Astronomical Algorithms, 2nd ed., ch. 21.
func Constellation(place sky.J2000) string {
	from := coord.Equatorial{RA: unit.RAFromRad(place.RA.Radians()), Dec: unit.Angle(place.Dec.Radians())}
	var to coord.Equatorial
	precess.NewPrecessor(2000, b1875).Precess(&from, &to)
	ra, dec := sky.Angle(to.RA.Rad()).Wrapped(), sky.Angle(to.Dec.Rad())
	for _, b := range boundaries() {
		if dec >= b.decFrom && ra >= b.raFrom && ra < b.raTo {
			return b.constellation
		}
	}
	return "Oct" // only rounding at the south pole comes here
}

// constellationNames are the abbreviation, the name and the genitive, "Dor", "Dorado", "Doradus".
type constellationNames struct{ abbreviation, name, genitive string }

var constellations = sync.OnceValue(func() []constellationNames {
	list := make([]constellationNames, 0, 88)
	for r := range rows("constellations.csv", constellationsCSV, 3) {
		list = append(list, constellationNames{r.fields[0], r.fields[1], r.fields[2]})
	}
	return list
})

// ConstellationName returns the Latin name, "Dorado" for "Dor" in any case, or "" if there is no such
// abbreviation.
func ConstellationName(abbreviation string) string {
	for _, c := range constellations() {
		if strings.EqualFold(c.abbreviation, abbreviation) {
			return c.name
		}
	}
	return ""
}
