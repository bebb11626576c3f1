package catalog

import (
	"fmt"
	"maps"
	"strings"
	"sync"
)

// UnknownNameError says that nothing in the catalogue goes by a name.
type UnknownNameError struct {
	Name string   // as it was asked for
	Near []string // names that Find knows, the most alike first; at most five, perhaps none
}

// Error returns a sentence for the person who typed the name.
func (e *UnknownNameError) Error() string {
	switch {
	case strings.TrimSpace(e.Name) == "":
		return `no name given; give one such as "Sirius", "α CMa", "HIP 32349", "M 42" or "Tarantula Nebula"`
	case len(e.Near) == 0:
		return fmt.Sprintf(`no star or object here is called %q; give a name such as "Sirius" or "Tarantula Nebula", `+
			`or a number such as "HIP 32349", "M 42" or "NGC 2070"`, e.Name)
	}
	return fmt.Sprintf("no star or object here is called %q; the nearest names are %s", e.Name, strings.Join(e.Near, ", "))
}

// Find returns the star or deep-sky object of that name or number.
//
// Given:  "Tarantula Nebula", "Tarantula", "M42", "m 42", "Messier 42", "Caldwell 103", "Sh2-155",
// "Sirius", "α CMa", "alpha cma", "alf CMa", "Alpha Canis Majoris", "61 Cyg", "HIP 32349". Case,
// spaces and the hyphens and apostrophes within words don't matter, save for Bayer's Latin letters (b and B
// Cen are two stars); every other mark does. A letter without its raised number finds the brightest star of
// that letter: "α Cen" is α¹ Cen.
// Error:  *UnknownNameError, with the nearest names.
func Find(name string) (Object, error) {
	k := key(name)
	if i, ok := deepSkyIndex()[k]; ok {
		return allDeepSky()[i], nil
	}
	if i, ok := starNameIndex()[k]; ok {
		return allStars()[i], nil
	}
	if o, ok := findDesignation(name); ok {
		return o, nil
	}
	// Last, for Antares is the star and not the Antares Nebula.
	if i, ok := stemIndex()[k]; ok {
		return allDeepSky()[i], nil
	}
	return Object{}, &UnknownNameError{Name: name, Near: near(name)}
}

// deepSkyIndex leads from the key of a name or number to its place in allDeepSky.
var deepSkyIndex = sync.OnceValue(func() map[string]int {
	list := allDeepSky()
	index := make(map[string]int, 3*len(list))
	for i, o := range list {
		for _, name := range o.Names {
			index[key(name)] = i
			index[key(strings.ReplaceAll(name, "-", " "))] = i // the hyphen of "ESO 56-115" may be a space
			if short, ok := abbreviated(name); ok {
				index[key(short)] = i
			}
		}
	}
	return index
})

// abbreviated returns a name that ends with a constellation's genitive with the abbreviation in its place, as people
// write it: "47 Tuc" for "47 Tucanae".
//
// Source: the IAU's abbreviations of 1922 and 1930.
func abbreviated(name string) (short string, ok bool) {
	at := strings.LastIndex(name, " ")
	if at < 0 {
		return "", false
	}
	for _, c := range constellations() {
		if name[at+1:] == c.genitive {
			return name[:at+1] + c.abbreviation, true
		}
	}
	return "", false
}

// stemIndex leads from "tarantula" to the Tarantula Nebula, where only one object is called so.
var stemIndex = sync.OnceValue(func() map[string]int {
	const shared = -1
	index := map[string]int{}
	for i, o := range allDeepSky() {
		for _, name := range o.Names {
			k, ok := stem(name)
			if !ok {
				continue
			}
			if other, twice := index[k]; twice && other != i {
				index[k] = shared
				continue
			}
			index[k] = i
		}
	}
	maps.DeleteFunc(index, func(_ string, i int) bool { return i == shared })
	return index
})

// stem returns the key of a common name without its last word, "Nebula", "Galaxy" or "Cluster".
func stem(name string) (string, bool) {
	for _, last := range []string{" Nebula", " Galaxy", " Cluster"} {
		if first, ok := strings.CutSuffix(name, last); ok && len(first) > 3 {
			return key(first), true
		}
	}
	return "", false
}

// starNameIndex leads from the key of a star's proper name to its place in allStars. Designations are
// not in it: scanning for those takes a tenth of a millisecond, an index a megabyte.
var starNameIndex = sync.OnceValue(func() map[string]int {
	index := map[string]int{}
	for i, o := range allStars() {
		for _, name := range o.Names {
			k := key(name)
			if _, taken := index[k]; !taken && isProperName(name) {
				index[k] = i
			}
		}
	}
	return index
})

// isProperName tells "Sirius" and "Double Double" from "α CMa", "61 Cyg" and "HIP 32349".
func isProperName(name string) bool {
	letter, constellation, two := strings.Cut(name, " ")
	if !two {
		return true
	}
	return letter != "HIP" && ConstellationName(constellation) == ""
}
