package catalog

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// findDesignation finds a star by Bayer letter, Flamsteed number or Hipparcos number.
func findDesignation(name string) (Object, bool) {
	k := key(writtenOut(name))
	if digits, ok := strings.CutPrefix(k, "hip"); ok && digits != "" {
		return firstStar(func(n string) bool { return n == "HIP "+digits })
	}
	for _, d := range designations(name, k) {
		if o, ok := firstStar(func(n string) bool { return n == d }); ok {
			return o, true
		}
		if strings.ContainsAny(d, superscripts) {
			continue
		}
		letter, constellation, _ := strings.Cut(d, " ")
		if o, ok := firstStar(func(n string) bool { return isNumbered(n, letter, constellation) }); ok {
			return o, true
		}
	}
	return Object{}, false
}

// writtenOut returns a star's designation with its letter's raised number as digits and without the full stop
// that some books put after a Greek letter: "α¹ Cen" is "α1 Cen", "mu. Cep" is "mu Cep".
func writtenOut(name string) string {
	var b strings.Builder
	before := ' '
	for _, r := range name {
		digit, isRaised := digitOf(r)
		switch {
		case isRaised && (unicode.IsLetter(before) || isRaisedDigit(before)):
			b.WriteByte(digit)
		case r == '.' && isGreek(b.String()):
		default:
			b.WriteRune(r)
		}
		before = r
	}
	return b.String()
}

func isRaisedDigit(r rune) bool {
	_, ok := digitOf(r)
	return ok
}

func isGreek(word string) bool {
	_, ok := greekLetter(strings.ToLower(strings.TrimSpace(word)))
	return ok
}

// isNumbered tells whether name is letter, a raised number, and constellation.
func isNumbered(name, letter, constellation string) bool {
	rest, ok := strings.CutPrefix(name, letter)
	if !ok || !strings.HasSuffix(rest, " "+constellation) {
		return false
	}
	number := rest[:len(rest)-len(constellation)-1]
	return number != "" && strings.Trim(number, superscripts) == ""
}

// firstStar returns the brightest star with a name that fits.
func firstStar(fits func(name string) bool) (Object, bool) {
	for _, o := range allStars() {
		for _, n := range o.Names {
			if fits(n) {
				return o, true
			}
		}
	}
	return Object{}, false
}

// designations returns the ways in which a name can be read as a letter or number and a constellation,
// as the catalogue writes them: "Alpha Canis Majoris" gives "α CMa".
func designations(name, k string) []string {
	var found []string
	for _, c := range endings() {
		for _, ending := range c.keys {
			rest, ok := strings.CutSuffix(k, ending)
			if !ok {
				continue
			}
			for _, letter := range letters(name, rest) {
				found = append(found, letter+" "+c.abbreviation)
			}
			break
		}
	}
	return found
}

// ending is how a designation may end for one constellation: the keys of its genitive, name and abbreviation.
type ending struct {
	abbreviation string
	keys         [3]string
}

var endings = sync.OnceValue(func() []ending {
	var list []ending
	for _, c := range constellations() {
		list = append(list, ending{c.abbreviation, [3]string{key(c.genitive), key(c.name), key(c.abbreviation)}})
	}
	return list
})

// letters reads the part before the constellation: "61", "alpha", "α", "mu1", "mu.01", or one Latin
// letter, whose case only the name as given tells.
func letters(name, k string) []string {
	word, digits := splitNumber(k)
	digits = strings.TrimLeft(digits, "0")
	switch {
	case word == "" && digits != "":
		return []string{digits}
	case word == "":
		return nil
	}
	if greek, ok := greekLetter(word); ok {
		return []string{greek + raised(digits)}
	}
	if len(word) != 1 || word[0] < 'a' || word[0] > 'z' {
		return nil
	}
	small, capital := word+raised(digits), strings.ToUpper(word)+raised(digits)
	if first, _ := utf8.DecodeRuneInString(strings.TrimSpace(name)); first < 'a' {
		return []string{capital, small}
	}
	return []string{small, capital}
}

// greekLetter reads a Greek letter, its name, or one of its usual abbreviations.
func greekLetter(word string) (string, bool) {
	for _, g := range greekAlphabet() {
		for _, spelling := range g {
			if word == spelling {
				return g[0], true
			}
		}
	}
	return "", false
}

// greekAlphabet lists each letter, its name, and how catalogues shorten that: the first three letters,
// and the forms in use for alpha, theta, xi and the two-letter names.
func greekAlphabet() [24][]string {
	return [24][]string{
		{"α", "alpha", "alp", "alf", "al"}, {"β", "beta", "bet", "be"}, {"γ", "gamma", "gam", "ga"},
		{"δ", "delta", "del", "de"}, {"ε", "epsilon", "eps", "ep"}, {"ζ", "zeta", "zet", "ze"},
		{"η", "eta", "et"}, {"θ", "theta", "the", "tet", "th"}, {"ι", "iota", "iot", "io"},
		{"κ", "kappa", "kap", "ka"}, {"λ", "lambda", "lam", "lamda", "la"}, {"μ", "mu"}, {"ν", "nu"},
		{"ξ", "xi", "ksi"}, {"ο", "omicron", "omi"}, {"π", "pi"}, {"ρ", "rho", "rh"},
		{"σ", "sigma", "sig", "si"}, {"τ", "tau", "ta"}, {"υ", "upsilon", "ups", "up"},
		{"φ", "phi", "ph"}, {"χ", "chi", "ch"}, {"ψ", "psi", "ps"}, {"ω", "omega", "ome"},
	}
}
