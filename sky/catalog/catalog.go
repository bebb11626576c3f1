// Package catalog holds the stars to magnitude 6.5 and a curated table of some hundreds of deep-sky
// objects that people image, and finds either by any name it goes by.
//
// Frame:  places are in the ICRF at epoch J2000.0.
// Stars:  rounded to 0.0001° (0.36″) by their source; against Hipparcos at most 0.25″ off. The proper
// motion is known for nearly all stars to V 4 and for many to V 5, and taken as zero for the rest; by
// 2030 that costs the median star of V 6 about an arcsecond.
// Deep sky: places to about an arcminute (better for small objects), magnitudes V and sizes as the
// handbooks print them, position angles of the major axis north through east.
// Sources: CREDITS.md in this folder. The program in gen makes boundaries.csv, stars.csv and,
// of that, stars.bin; deepsky.csv and constellations.csv are written by hand.
//
// The data are compiled in. Each file is read when something first asks for it, so looking up a nebula
// does not read the stars.
package catalog

import (
	"fmt"
	"strings"

	"duskhand/sky"
)

// Kind is star or deep-sky object.
type Kind int

// The two kinds.
const (
	Star Kind = iota
	DeepSkyObject
)

// String returns "star" or "deep-sky".
func (k Kind) String() string {
	switch k {
	case Star:
		return "star"
	case DeepSkyObject:
		return "deep-sky"
	}
	return fmt.Sprintf("Kind(%d)", int(k))
}

// Known is a number of the catalogue that may be missing. Its unit is in the name of the field that
// holds it; Value means nothing unless OK.
type Known struct {
	Value float64
	OK    bool
}

// Object is a star or a deep-sky object. Treat Names as read-only: it is shared.
type Object struct {
	ID               string   // main designation: "NGC 2070", "α CMa", "HIP 12345"
	Names            []string // all names: the best for people first, then other names, then designations
	Kind             Kind
	Type             string   // "star" or one of Types
	Constellation    string   // IAU abbreviation, "Dor", by the IAU boundaries
	Star             sky.Star // place at J2000.0 and proper motion, zero where unknown
	Magnitude        Known    // V; of a nebula or galaxy the whole of its light
	MajorArcmin      Known
	MinorArcmin      Known
	PositionAngleDeg Known // of the major axis, north through east, [0°, 180°)
}

// Types returns the plain types of deep-sky objects.
func Types() []string {
	return []string{
		"galaxy", "galaxy group", "open cluster", "globular cluster", "bright nebula",
		"planetary nebula", "supernova remnant", "dark nebula", "star cloud", "double star", "asterism",
	}
}

// Name returns the name to show first: the IAU's name of a star, the common name of an object, or the
// ID if it has none.
func (o Object) Name() string {
	if len(o.Names) == 0 {
		return o.ID
	}
	return o.Names[0]
}

// HasName tells whether a star has a name of the IAU, and an object a common one: more than a designation.
func (o Object) HasName() bool { return len(o.Names) > 0 && o.Names[0] != o.ID }

// Bayer returns a star's letter and constellation, "α CMa", "π³ Ori" or "G Sco", or "" if it has none.
func (o Object) Bayer() string {
	if o.Kind != Star {
		return ""
	}
	for _, name := range o.Names {
		letter, constellation, ok := strings.Cut(name, " ")
		if ok && isBayerLetter(letter) && ConstellationName(constellation) != "" {
			return name
		}
	}
	return ""
}

// isBayerLetter tells whether s is one Greek or Latin letter with or without a raised number.
func isBayerLetter(s string) bool {
	letters := 0
	for _, r := range s {
		switch {
		case strings.ContainsRune(superscripts, r):
		case r >= 'α' && r <= 'ω', r >= 'A' && r <= 'Z', r >= 'a' && r <= 'z':
			letters++
		default:
			return false
		}
	}
	return letters == 1
}
