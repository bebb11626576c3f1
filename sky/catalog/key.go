package catalog

import (
	"strings"
	"unicode"
)

// superscripts are the raised digits, each at its value, three bytes or two: use digitOf.
const superscripts = "⁰¹²³⁴⁵⁶⁷⁸⁹"

// digitOf returns the digit of a raised digit.
func digitOf(r rune) (byte, bool) {
	digit := byte('0')
	for _, s := range superscripts {
		if s == r {
			return digit, true
		}
		digit++
	}
	return 0, false
}

// raised returns the raised form of decimal digits.
func raised(digits string) string {
	marks := []rune(superscripts)
	var b strings.Builder
	for _, d := range digits {
		b.WriteRune(marks[d-'0'])
	}
	return b.String()
}

// key returns the form in which names are compared: case, accents, spaces and the marks within words taken
// off, catalogues by their usual abbreviation, numbers without leading zeros. "Messier 042" is "m42",
// "Sharpless 155" is "sh2-155", "Barnard's Loop" is "barnardsloop".
func key(name string) string {
	if number, ok := sharpless(name); ok {
		return "sh2-" + number
	}
	k := bare(name)
	if rest, ok := strings.CutPrefix(k, "the"); ok && len(rest) > 3 && strings.HasPrefix(strings.ToLower(strings.TrimSpace(name)), "the ") {
		k = rest
	}
	letters, digits := splitNumber(k)
	if letters == "" || digits == "" {
		return k
	}
	if short, ok := catalogueAlias(letters); ok {
		letters = short
	}
	return letters + strings.TrimLeft(digits, "0")
}

// sharpless reads a number of Sharpless's second catalogue, which is written "Sh2-49", "Sh 2-49",
// "Sharpless 2-49" or, without the 2, "Sh 49" and "Sharpless 49"; run together, "sh249" is Sh2-49.
func sharpless(name string) (number string, ok bool) {
	rest, long := strings.CutPrefix(strings.ToLower(strings.TrimSpace(name)), "sharpless")
	if !long {
		if rest, ok = strings.CutPrefix(rest, "sh"); !ok {
			return "", false
		}
	}
	second := strings.TrimLeft(rest, " -")
	together := second == rest && !long
	if after, two := strings.CutPrefix(second, "2"); two && after != "" {
		// The list has 313 entries, so a fourth digit tells too.
		if after[0] == ' ' || after[0] == '-' || together || len(second) == 4 {
			second = strings.TrimLeft(after, " -")
		}
	}
	number = strings.TrimLeft(second, "0")
	return number, number != "" && strings.Trim(number, "0123456789") == ""
}

// bare returns name in small letters without accents, spaces, and the hyphens and apostrophes within words.
//
// All other marks stay, and make it another name: "M 3/4" is not M 34, nor "M 3.1" M 31. A hyphen between
// two digits stays too ("M 1-1" is not M 11), and so do raised digits ("M 3²" is not M 32).
func bare(name string) string {
	var b strings.Builder
	before := ' '
	text := []rune(strings.ToLower(name))
	for i, r := range text {
		after := ' '
		if i+1 < len(text) {
			after = text[i+1]
		}
		if !unicode.IsSpace(r) && !passedOver(before, r, after) {
			b.WriteRune(plain(r))
		}
		before = r
	}
	return b.String()
}

// passedOver tells whether r, between its neighbours, is a mark that people leave out or put in: a hyphen
// in a word or before its number, an apostrophe, an accent that is a character of its own.
func passedOver(before, r, after rune) bool {
	switch {
	case r == '-':
		return unicode.IsLetter(before) && (unicode.IsLetter(after) || unicode.IsDigit(after)) ||
			unicode.IsDigit(before) && unicode.IsLetter(after)
	case r == '\'', r == '’', unicode.Is(unicode.Mn, r):
		return unicode.IsLetter(before)
	}
	return false
}

// plain returns a small letter without its accent, and the Greek letter for what keyboards have in its place.
func plain(r rune) rune {
	switch r {
	case 'ö', 'ó', 'ò', 'ô':
		return 'o'
	case 'á', 'à', 'ä', 'â':
		return 'a'
	case 'é', 'è', 'ë', 'ê':
		return 'e'
	case 'ς':
		return 'σ'
	case 'µ': // the micro sign, which keyboards have
		return 'μ'
	}
	return r
}

// splitNumber splits "ngc2070" into "ngc" and what follows from the first digit on. digits is "" unless
// all that follows is digits.
func splitNumber(k string) (letters, digits string) {
	i := strings.IndexAny(k, "0123456789")
	if i < 0 {
		return k, ""
	}
	for _, r := range k[i:] {
		if r < '0' || r > '9' {
			return k, ""
		}
	}
	return k[:i], k[i:]
}

// catalogueAlias returns the abbreviation that the table uses for a catalogue.
func catalogueAlias(letters string) (string, bool) {
	switch letters {
	case "messier":
		return "m", true
	case "caldwell":
		return "c", true
	case "barnard":
		return "b", true
	case "collinder":
		return "cr", true
	case "melotte":
		return "mel", true
	case "trumpler":
		return "tr", true
	case "vandenbergh":
		return "vdb", true
	case "hipparcos":
		return "hip", true
	}
	return "", false
}
