package catalog

import (
	"strings"
	"unicode/utf8"
)

// findDesignation finds a star by Bayer letter, Flamsteed number or Hipparcos number.
func findDesignation(name string) (Object, bool) {
	k := key(name)
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
	for _, c := range constellations() {
		for _, ending := range []string{c.genitive, c.name, c.abbreviation} {
			rest, ok := strings.CutSuffix(k, key(ending))
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
