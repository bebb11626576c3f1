package light_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/plan/light"
	"duskhand/sky/catalog"
)

func TestMeanSurfaceBrightness(t *testing.T) {
	// A disc of 2/√π arcmin has one square minute of arc, 3600 square seconds: 2.5 log10 3600 = 8.8908.
	across := 2 / math.Sqrt(math.Pi)
	assert.InDelta(t, 10+8.8908, light.MeanSurfaceMag(10, across, across), 0.0001)
	// Andromeda: 3.44 over 189.1′ × 61.7′ (Third Reference Catalogue, memory): 3.44 + 8.8908 + 2.5 log10(9163.6) = 22.236
	assert.InDelta(t, 22.236, light.MeanSurfaceMag(3.44, 189.1, 61.7), 0.001)
}

func TestWhereABrightnessComesFrom(t *testing.T) {
	of := func(name string) light.Source {
		o, err := catalog.Find(name)
		if err != nil {
			t.Fatal(err)
		}
		return light.SourceOf(o)
	}
	assert.Equal(t, light.Catalogued, of("M 31").Origin)
	assert.InDelta(t, 22.24, of("M 31").SurfaceMag, 0.2) // as above; the catalogue's size differs a little
	assert.Equal(t, light.Remembered, of("Rosette Nebula").Origin)
	assert.InDelta(t, 700, of("Rosette Nebula").Hα(), 0)
	assert.Equal(t, light.ByType, of("Sh2-101").Origin)
	assert.True(t, of("M 78").Continuum, "dust that reflects stars")
	assert.False(t, of("M 78").ByLines())
	assert.Equal(t, light.ByType, light.SourceOf(catalog.Object{}).Origin)
}
