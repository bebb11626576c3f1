package catalog

import (
	_ "embed"
	"strings"
	"sync"

	"duskhand/sky"
)

//go:embed deepsky.csv
var deepSkyCSV string

// The columns of deepsky.csv. The last tells where the values come from: it is for those who mend the
// table, and the program does not read it.
const (
	deepID = iota
	deepOtherIDs
	deepNames
	deepType
	deepRA
	deepDec
	deepMag
	deepMajor
	deepMinor
	deepPA
	deepConstellation
	deepOrigin
	deepColumns
)

var allDeepSky = sync.OnceValue(func() []Object {
	list := make([]Object, 0, strings.Count(deepSkyCSV, "\n"))
	for r := range rows("deepsky.csv", deepSkyCSV, deepColumns) {
		names := r.appendList(nil, deepNames)
		names = append(names, r.fields[deepID])
		list = append(list, Object{
			ID:            r.fields[deepID],
			Names:         r.appendList(names, deepOtherIDs),
			Kind:          DeepSkyObject,
			Type:          r.fields[deepType],
			Constellation: r.fields[deepConstellation],
			Star: sky.Star{Place: sky.J2000{
				RA:  sky.Angle(r.number(deepRA)) * sky.Degree,
				Dec: sky.Angle(r.number(deepDec)) * sky.Degree,
			}},
			Magnitude:        r.known(deepMag),
			MajorArcmin:      r.known(deepMajor),
			MinorArcmin:      r.known(deepMinor),
			PositionAngleDeg: r.known(deepPA),
		})
	}
	return list
})

// DeepSky returns all deep-sky objects, in the order of the table: Messier's first, then by number.
// The result is shared; don't change it.
func DeepSky() []Object {
	list := allDeepSky()
	return list[:len(list):len(list)]
}
