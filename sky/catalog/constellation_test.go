package catalog_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"duskhand/sky/catalog"
)

func TestConstellation(t *testing.T) {
	for _, c := range []struct {
		name            string
		raHours, decDeg float64
		want            string
	}{
		// The corners of the table, and places whose constellation any star atlas tells.
		{"the north celestial pole", 0, 90, "UMi"},
		{"the south celestial pole", 0, -90, "Oct"},
		{"just east of 0 h", 0.01, 59, "Cas"},
		{"just west of 24 h", 23.99, -1, "Psc"},
		{"Serpens, the head", 15.74, 6.4, "Ser"},
		{"Serpens, the tail", 18.35, -2.9, "Ser"},
		{"the Tarantula", 5.645, -69.1, "Dor"},
		{"10 Ursae Majoris, now in Lynx", 9.011, 41.783, "Lyn"},
		{"the Sun at the December solstice", 18, -23.44, "Sgr"},
		{"Ophiuchus on the ecliptic", 17, -22.5, "Oph"},
	} {
		assert.Equal(t, c.want, catalog.Constellation(at(15*c.raHours, c.decDeg)), c.name)
	}
}

// The letter of a star was given before the boundaries were drawn, and they were drawn around the
// letters: an independent check of boundaries, precession and places. M Serpentis is the one that the
// boundary crossed.
func TestBayerLettersLieInTheirConstellation(t *testing.T) {
	checked := 0
	for _, s := range catalog.Stars(catalog.FaintestStar) {
		_, letter, ok := strings.Cut(s.Bayer(), " ")
		if !ok || s.Bayer() == "M Ser" {
			continue
		}
		checked++
		assert.Equal(t, letter, s.Constellation, s.Name())
	}
	assert.Greater(t, checked, 1900) // so many letters to 6.5
}

func TestEveryPlaceHasAConstellation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place := at(rapid.Float64Range(0, 360).Draw(t, "RA"), rapid.Float64Range(-90, 90).Draw(t, "Dec"))
		c := catalog.Constellation(place)
		if catalog.ConstellationName(c) == "" {
			t.Fatalf("%v is in %q", place, c)
		}
	})
}

func TestConstellationName(t *testing.T) {
	assert.Equal(t, "Dorado", catalog.ConstellationName("Dor"))
	assert.Equal(t, "Canis Major", catalog.ConstellationName("cma"))
	assert.Equal(t, "Boötes", catalog.ConstellationName("BOO"))
	assert.Empty(t, catalog.ConstellationName("Xyz"))
	assert.Empty(t, catalog.ConstellationName(""))
}
