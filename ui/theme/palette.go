package theme

import (
	"fmt"
	"strings"

	"duskhand/sky/words"

	"github.com/muesli/termenv"
)

// Palette is one way of giving light to the roles.
type Palette uint8

// The palettes. Night is the zero value: what is not told otherwise must not glare.
const (
	Night    Palette = iota // deep red on black; green and blue are 0 in every cell
	Day                     // on the terminal's own ground, for setting up and for the desk
	Mono                    // no colour at all: bold, underline and reverse only
	Contrast                // white and yellow on black, for eyes that need it or a screen in the sun; not for the dark
)

// Palettes returns every palette, Night first.
func Palettes() []Palette { return []Palette{Night, Day, Mono, Contrast} }

// String returns the name by which ParsePalette knows p.
func (p Palette) String() string {
	switch p {
	case Day:
		return "day"
	case Mono:
		return "mono"
	case Contrast:
		return "contrast"
	default:
		return "night"
	}
}

// ParsePalette returns the palette with that name, in capitals or not.
//
// Error: any other name; the error gives the right ones.
func ParsePalette(name string) (Palette, error) {
	for _, p := range Palettes() {
		if strings.EqualFold(strings.TrimSpace(name), p.String()) {
			return p, nil
		}
	}
	return Night, fmt.Errorf("palette %q is not known; give %s", name, PaletteWords())
}

// PaletteWords returns the names of all palettes for a sentence: "night, day, mono or contrast".
func PaletteWords() string {
	var names []string
	for _, p := range Palettes() {
		names = append(names, p.String())
	}
	return words.Either(names)
}

// Choose returns the palette to start with: Mono if the person asked for no colour (noColor: the
// variable NO_COLOR is set and not empty, see no-color.org) or the terminal has none, or else the
// named one.
//
// Valid: a name that ParsePalette refuses gives Night, the safe one in the dark; check names with
// ParsePalette first, so that the person hears of it.
func Choose(name string, noColor bool, profile termenv.Profile) Palette {
	if noColor || profile == termenv.Ascii {
		return Mono
	}
	p, err := ParsePalette(name)
	if err != nil {
		return Night
	}
	return p
}
