package catalog_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/sky/catalog"
)

func TestFind(t *testing.T) {
	for want, names := range map[string][]string{
		"α CMa":      {"Sirius", "SIRIUS", " sirius ", "α CMa", "αCMa", "alpha cma", "Alpha Canis Majoris", "alf CMa", "alp CMa", "9 CMa", "9 Canis Majoris", "HIP 32349", "hip32349"},
		"M 42":       {"M42", "m 42", "Messier 42", "messier042", "NGC 1976", "ngc1976", "Orion Nebula", "orion nebula", "the Orion Nebula", "Sh2-281"},
		"NGC 2070":   {"NGC2070", "ngc 2070", "Caldwell 103", "C103", "c 103", "Tarantula Nebula", "tarantula", "30 Doradus", "30 Dor", "30dor", "The Tarantula"},
		"NGC 104":    {"47 Tucanae", "47 Tuc", "47tuc"},
		"NGC 5139":   {"Omega Centauri", "omega Cen"},
		"Sh2-155":    {"Sh2-155", "sh2 155", "SH 2-155", "Sharpless 155", "Sharpless 2-155", "C9", "Cave Nebula"},
		"α¹ Cen":     {"Rigil Kentaurus", "α Cen", "alpha centauri", "alpha1 cen", "α1 Cen", "alf01 Cen"},
		"α² Cen":     {"Toliman", "alpha2 Centauri", "α² Cen"},
		"β¹ Sco":     {"Acrab", "beta sco", "bet01 Sco"},
		"α Gru":      {"Alnair"},  // not ζ Cen
		"α Peg":      {"Markab"},  // not κ¹ Pup
		"α Cet":      {"Menkar"},  // not λ Cet
		"γ Aql":      {"Tarazed"}, // not η Aql
		"δ Cyg":      {"Fawaris"}, // not κ Cyg
		"ο Per":      {"Atik"},    // not ζ Per, which is brighter
		"η Gem":      {"Propus"},  // not ι Gem
		"α Cas":      {"Schedar", "Shedar"},
		"υ³ Eri":     {"Beemim", "upsilon3 eri"},
		"μ Cep":      {"mu Cep", "µ Cep", "mu. Cep", "Mu Cephei"},
		"ξ Sco":      {"xi Scorpii", "ksi Sco"},
		"θ¹ Ori":     {"theta1 Orionis", "tet01 Ori"},
		"G Sco":      {"Fuyue", "G Sco", "G Scorpii"},
		"61 Cyg":     {"61 Cygni", "61cyg"},
		"80 UMa":     {"Alcor", "80 UMa", "g UMa"},
		"α Boo":      {"alpha bootis", "Alpha Boötis"},
		"B 33":       {"Horsehead Nebula", "Barnard 33", "B33", "horsehead"},
		"C 41":       {"Hyades", "Melotte 25", "Mel25"},
		"Cr 399":     {"Collinder 399", "coathanger"},
		"M 31":       {"Andromeda", "Andromeda Galaxy", "NGC 224"},
		"Hickson 92": {"Stephan's Quintet", "stephans quintet", "NGC 7320"},
		"M 16":       {"Sh2-49", "Sh 49", "sh249", "Sharpless 2-49"},
		"Sh2-249":    {"Sh2-249", "Sh 249", "sh2249", "Sharpless 249"},
		"α Sco":      {"Antares"}, // not the nebula around it
		"LMC":        {"lmc", "Large Magellanic Cloud"},
	} {
		for _, name := range names {
			o, err := catalog.Find(name)
			if assert.NoError(t, err) {
				assert.Equal(t, want, o.ID, "%q", name)
			}
		}
	}
}

func TestLatinLettersKeepTheirCase(t *testing.T) {
	small, err := catalog.Find("b Cen")
	require.NoError(t, err)
	capital, err := catalog.Find("B Cen")
	require.NoError(t, err)
	assert.Contains(t, small.Names, "b Cen")
	assert.Contains(t, capital.Names, "B Cen")
}

func TestFirstName(t *testing.T) {
	for name, want := range map[string]string{
		"α CMa": "Sirius", "NGC 2070": "Tarantula Nebula", "NGC 891": "NGC 891", "γ Cas": "γ Cas", "HIP 57939": "HIP 57939",
	} {
		o, err := catalog.Find(name)
		require.NoError(t, err)
		assert.Equal(t, want, o.Name())
	}
}

// Every name of every object leads back to it, or, for two stars of one name, to the brighter.
func TestEveryNameLeadsToItsBearer(t *testing.T) {
	owner := map[string]string{}
	for _, list := range [][]catalog.Object{catalog.DeepSky(), catalog.Stars(5.5)} {
		for _, o := range list {
			for _, name := range o.Names {
				require.Empty(t, owner[name], "%q belongs to %s and %s", name, owner[name], o.ID)
				owner[name] = o.ID
				got, err := catalog.Find(name)
				if assert.NoError(t, err) {
					assert.Equal(t, o.ID, got.ID, "%q", name)
				}
			}
		}
	}
}

func TestSuggestions(t *testing.T) {
	for asked, want := range map[string]string{
		"tarantla": "Tarantula Nebula", "NGC 2O70": "NGC 2070", "Betelgeuze": "Betelgeuse", "Sirus": "Sirius",
		"Aldeberan": "Aldebaran", "rosete nebula": "Rosette Nebula", "M 4Z": "M 42", "fomalhout": "Fomalhaut",
		"taran": "Tarantula Nebula", "Orinon Nebula": "Orion Nebula", "achenar": "Achernar",
	} {
		_, err := catalog.Find(asked)
		var unknown *catalog.UnknownNameError
		require.True(t, errors.As(err, &unknown), asked)
		assert.Equal(t, asked, unknown.Name)
		assert.Contains(t, unknown.Near, want, "%q", asked)
		assert.LessOrEqual(t, len(unknown.Near), 5)
		for _, near := range unknown.Near {
			_, err := catalog.Find(near)
			assert.NoError(t, err, "suggested for %q", asked)
		}
	}
}

// Case and spaces are forgiven, and the marks of words; a mark that changes a number is another name.
func TestMarksAreNotForgiven(t *testing.T) {
	for asked, near := range map[string]string{
		"M 3/4": "M 34", "M 3.1": "M 31", "M 1-1": "M 11", "M 3$": "M 3", "M 3,1": "M 31", "M_31": "M 31", "M 31!": "M 31", "M -31": "M 31",
		"M 3²": "", "NGC 20-70": "NGC 2070", "(M 42)": "", "Sirius?": "Sirius", "Sir.ius": "Sirius", "M3'": "M 3", "M 3\x1b1": "M 31",
		"C 10:3": "C 103", "Sh2-15.5": "Sh2-155", "HIP 323/49": "", "6/1 Cyg": "", "α/Cen": "", "61. Cyg": "", "M 42.": "M 42", "-M 42": "M 42",
	} {
		_, err := catalog.Find(asked)
		var unknown *catalog.UnknownNameError
		if assert.True(t, errors.As(err, &unknown), "%q is found", asked) && near != "" {
			assert.Contains(t, unknown.Near, near, "%q", asked)
		}
	}
	for want, names := range map[string][]string{
		"M 42":       {"M-42", "M  42", "m\u00a042", "Messier\t42", "NGC-1976"},
		"ESO 56-115": {"ESO 56-115", "eso56-115", "ESO 56 115"},
		"NGC 2392":   {"Clown Faced Nebula", "clown-faced nebula"},
		"NGC 3031":   {"Bode’s Galaxy", "bodes galaxy", "BODE'S GALAXY"},
		"β¹ Sco":     {"bet.01 Sco", "β¹-Sco"},
		"α Boo":      {"Alpha Boo\u0308tis"}, // the accent as a character of its own
	} {
		bearer, err := catalog.Find(want)
		require.NoError(t, err)
		for _, name := range names {
			o, err := catalog.Find(name)
			if assert.NoError(t, err) {
				assert.Equal(t, bearer.ID, o.ID, "%q", name)
			}
		}
	}
}

func TestUnknownNames(t *testing.T) {
	for asked, says := range map[string]string{
		"":                         "no name given",
		"   ":                      "no name given",
		"zzqqxxyyww":               "such as",
		strings.Repeat("long", 99): "such as",
		"tarantla":                 "nearest names are Tarantula Nebula",
	} {
		_, err := catalog.Find(asked)
		require.Error(t, err)
		assert.Contains(t, err.Error(), says)
	}
}

func TestFindNeverPanics(t *testing.T) {
	words := []string{"α", "HIP", "ngc", "²", "Sh2", "-", " ", "cma", "the", "ö", "0", "7", "\xff", "Nebula", "mu"}
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.OneOf(
			rapid.String(),
			rapid.Map(rapid.SliceOfN(rapid.SampledFrom(words), 0, 8), func(s []string) string { return strings.Join(s, "") }),
		).Draw(t, "name")
		o, err := catalog.Find(name)
		if (err == nil) == (o.ID == "") {
			t.Fatalf("Find(%q) = %v, %v", name, o, err)
		}
	})
}
