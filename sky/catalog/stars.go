package catalog

import (
	_ "embed"
	"fmt"
	"math"
	"sort"
	"sync"

	"duskhand/sky"
)

// starsBin is stars.csv, packed by the program in gen so that reading it costs a tenth: a test holds the two
// against each other. All numbers are little-endian.
//
//	uint32 stars, uint32 constellations, uint32 stars with a proper motion
//	the constellations' abbreviations, three bytes each
//	for each star, brightest first: the columns below, starSize bytes
//	for each star with a proper motion, in that order: two float64, mas a year in RA (with cos dec) and Dec
//	a byte for each name of each star, its length
//	the names, with nothing between them
//
//go:embed stars.bin
var starsBin string

// The columns of a star, by the byte at which each begins.
const (
	starRA            = 0  // uint32, 0.0001°
	starDec           = 4  // int32, 0.0001°
	starMag           = 8  // int16, 0.01
	starConstellation = 10 // uint8, index
	starNames         = 11 // uint8: how many names, with the two marks below
	starSize          = 12

	namedFirst  = 0x40 // the IAU's name comes before the designation
	motionKnown = 0x80
	starsHeader = 12
)

// FaintestStar is the V magnitude to which the catalogue's stars are complete and at which it ends.
const FaintestStar = 6.5

var allStars = sync.OnceValue(readStars)

// starFile is starsBin taken apart.
type starFile struct {
	count                                         int
	constellations, records, motions, sizes, text string
}

// openStars takes the file apart. A fault in a compiled-in file is a bug, so it panics.
func openStars(file string) starFile {
	count, abbreviations, moving := int(uint32At(file, 0)), int(uint32At(file, 4)), int(uint32At(file, 8))
	f := starFile{count: count}
	rest := file[starsHeader:]
	cut := func(n int) (part string) { part, rest = rest[:n], rest[n:]; return part }
	f.constellations, f.records, f.motions = cut(3*abbreviations), cut(starSize*count), cut(16*moving)
	names := 0
	for i := range count {
		names += f.names(i)
	}
	f.sizes, f.text = cut(names), rest
	return f
}

func (f starFile) names(i int) int {
	return int(f.records[starSize*i+starNames] &^ (namedFirst | motionKnown))
}

// readStars makes the list of all stars. Names and constellations are slices of the compiled-in file.
func readStars() []Object {
	f := openStars(starsBin)
	list, names := make([]Object, f.count), make([]string, len(f.sizes))
	text := f.text
	for i := range names {
		n := int(f.sizes[i])
		names[i], text = text[:n], text[n:]
	}
	if text != "" {
		panic(fmt.Sprintf("stars.bin: %d bytes after the last name", len(text)))
	}
	motions := f.motions
	for i := range list {
		record, n := f.records[starSize*i:starSize*(i+1)], f.names(i)
		list[i] = f.star(record, names[:n:n])
		names = names[n:]
		if record[starNames]&motionKnown != 0 {
			list[i].Star.Motion = motionAt(motions)
			motions = motions[16:]
		}
	}
	return list
}

// star returns a star without its proper motion.
func (f starFile) star(record string, names []string) Object {
	id := names[0]
	if record[starNames]&namedFirst != 0 {
		id = names[1]
	}
	at := 3 * int(record[starConstellation])
	// Dividing whole numbers rounds as reading the decimals does: the last bit is that of the table.
	return Object{
		ID: id, Names: names, Kind: Star, Type: "star", Constellation: f.constellations[at : at+3],
		Star: sky.Star{Place: sky.J2000{
			RA:  sky.Angle(float64(uint32At(record, starRA))/1e4) * sky.Degree,
			Dec: sky.Angle(float64(int32(uint32At(record, starDec)))/1e4) * sky.Degree,
		}},
		Magnitude: Known{Value: float64(int16(uint16(record[starMag])|uint16(record[starMag+1])<<8)) / 100, OK: true},
	}
}

func motionAt(text string) sky.ProperMotion {
	number := func(at int) sky.Angle {
		return sky.Angle(math.Float64frombits(uint64(uint32At(text, at)) | uint64(uint32At(text, at+4))<<32))
	}
	return sky.ProperMotion{RA: number(0) * sky.MilliarcsecondPerYear, Dec: number(8) * sky.MilliarcsecondPerYear}
}

func uint32At(text string, at int) uint32 {
	return uint32(text[at]) | uint32(text[at+1])<<8 | uint32(text[at+2])<<16 | uint32(text[at+3])<<24
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
