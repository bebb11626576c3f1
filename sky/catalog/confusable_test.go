package catalog_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/sky/catalog"
)

func TestConfusable(t *testing.T) {
	for star, want := range map[string][]string{
		"Shaula":     {"κ Sco", "υ Sco"}, // the look-alike and Lesath, 35′ away
		"Lesath":     {"λ Sco"},
		"Mizar":      {"80 UMa"}, // Alcor, 12′
		"Algieba":    {"40 Leo"}, // 22′; its own companion at 4″ is one star with it
		"Alnilam":    {"ζ Ori", "δ Ori"},
		"κ Sco":      {"λ Sco", "ι¹ Sco"},
		"N Vel":      {"κ Vel"},
		"Sirius":     nil,
		"Canopus":    nil,
		"Acrab":      nil, // its companion is 14″ away
		"α Cen":      nil, // likewise
		"Fomalhaut":  nil,
		"Vega":       nil,
		"Achernar":   nil,
		"NGC 2070":   nil, // not a star
		"Betelgeuse": nil,
	} {
		o, err := catalog.Find(star)
		require.NoError(t, err)
		var got []string
		for _, other := range catalog.Confusable(o) {
			got = append(got, other.ID)
		}
		assert.Equal(t, want, got, star)
	}
}

// The stars with a neighbour, without those that only the look-alikes' table has, as counted when the
// rule was chosen: that count stopped at neighbours of V 5. Stars between 2.5 and 3 have a few fainter
// ones besides, which the rule in words takes in.
func TestConfusableAmongTheBrightest(t *testing.T) {
	lookAlike := []string{"δ Ori", "ε Ori", "ζ Ori", "κ Sco", "κ Vel"}
	var toFive, fainter []string
	for _, s := range catalog.Stars(3) {
		others := catalog.Confusable(s)
		switch {
		case len(others) == 0 || slices.Contains(lookAlike, s.ID):
		case others[0].Magnitude.Value <= 5:
			toFive = append(toFive, s.ID)
		default:
			fainter = append(fainter, s.ID)
		}
	}
	assert.ElementsMatch(t, []string{
		"λ Sco", "γ¹ Leo", "γ Cen", "ζ UMa", "ε Boo", "ε Cyg", // to 2.5
		"δ Cen", "υ Sco", "π Pup", "θ Car", "ι Ori", "η Tau", "β CMi", "δ Crv", "ι¹ Sco", "μ¹ Sco", // to 3
	}, toFive)
	assert.ElementsMatch(t, []string{"α² Lib", "β Eri", "α Aqr", "γ UMi", "γ Gru"}, fainter)
}
