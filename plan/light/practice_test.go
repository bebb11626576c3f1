package light_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

var (
	luminance = kit.Filter{Name: "L", Kind: kit.Broad, CentreNM: 550, BandwidthNM: 300}
	threeHα   = kit.Filter{Name: "Ha", Kind: kit.LineFilter, Line: "Hα", CentreNM: 656.28, BandwidthNM: 3}
	threeO3   = kit.Filter{Name: "OIII", Kind: kit.LineFilter, Line: "[O III]", CentreNM: 500.68, BandwidthNM: 3}
)

// under returns what is left of a minute's worth at 50° with a full Moon as high, 60° away.
func under(t *testing.T, name string, f kit.Filter) float64 {
	o, err := catalog.Find(name)
	require.NoError(t, err)
	site := sites["outback"]
	v := light.Through(f, site)
	p := light.NewProspect(v, light.SourceOf(o), site, 0)
	altitude := 50 * sky.Degree
	moon := v.Moonlit(v.Under(light.Moonlight{MoonAltitude: altitude}), altitude, 60*sky.Degree)
	return p.Worth(altitude, moon) / p.Worth(altitude, 0)
}

// Common practice: under a full Moon bright nebulae are taken through narrow filters and little is lost; galaxies
// and dark nebulae wait for the new Moon; [O III] suffers more than Hα, being nearer the blue.
func TestWhatAFullMoonCosts(t *testing.T) {
	assert.Greater(t, under(t, "M 42", threeHα), 0.95)
	assert.Greater(t, under(t, "NGC 7000", threeHα), 0.5, "700 R are ten times the dark sky in 3 nm, and as much as the moonlit one")
	assert.Less(t, under(t, "M 109", luminance), 0.25)
	assert.Less(t, under(t, "M 31", luminance), 0.25)
	assert.Less(t, under(t, "B 33", luminance), 0.15, "a dark nebula is told by the clouds that it hides")
	assert.Less(t, under(t, "M 109", threeHα), 0.5, "a narrow filter helps no galaxy")
	assert.Less(t, under(t, "NGC 6992", threeO3), under(t, "NGC 6992", threeHα))
	assert.Greater(t, under(t, "M 42", luminance), 1.5*under(t, "M 109", luminance), "its own photons are much of its noise")
}

func TestAFilterSuitsTheLightThatItIsFor(t *testing.T) {
	site := sites["outback"]
	suits := func(name string, f kit.Filter) float64 {
		o, err := catalog.Find(name)
		require.NoError(t, err)
		return light.NewProspect(light.Through(f, site), light.SourceOf(o), site, 0).Suits
	}
	assert.InDelta(t, 1, suits("M 109", luminance), 0)
	assert.Less(t, suits("M 109", threeHα), 0.02, "3 of 300 nm")
	assert.InDelta(t, 1, suits("NGC 7000", threeHα), 0)
	assert.Less(t, suits("Sh2-240", luminance), 0.15, "20 R drown in 300 nm of sky")
	assert.Less(t, suits("Sh2-308", luminance), 0.2, "its [O III] is what a narrow filter is for")
	assert.Zero(t, suits("Sh2-240", kit.Filter{Kind: kit.LineFilter, CentreNM: 587.6, BandwidthNM: 3}), "no line of it lies there")
}

func TestAMinuteIsWorthMostOverheadWithoutMoon(t *testing.T) {
	galaxy, _ := nameless()
	site := sites["haze"]
	v := light.Through(luminance, site)
	p := light.NewProspect(v, galaxy, site, 0)
	assert.InDelta(t, 1, p.Worth(90*sky.Degree, 0), 1e-12)
	before := 1.0
	for altitude := 80.0; altitude > 5; altitude -= 5 {
		worth := p.Worth(sky.Angle(altitude)*sky.Degree, 0)
		assert.Less(t, worth, before, "%v°", altitude)
		before = worth
	}
	// Signal 10, noise of 10 + 20: 100 in 30 each second.
	assert.InDelta(t, 100/30.0, light.Gain(10, 20), 1e-12)
	assert.Zero(t, light.Gain(0, 20))
}

// 1 R is 1.8704e-6 photons s⁻¹ cm⁻² arcsec⁻², in Hα 5.661e-18 erg (the project's handbook, section 14, from
// 10⁶/4π per steradian).
func TestARayleighInPhotons(t *testing.T) {
	site := sites["outback"]
	gas := light.Source{Lines: []light.LineLight{{At: 656.28, Rayleighs: 1}}}
	const squareArcsecond = 2.350443e-11 // steradian: (π/648000)²
	assert.InEpsilon(t, 1e6/(4*3.14159265)*squareArcsecond, 1.8704e-6, 1e-4)
	at := light.Through(threeHα, site).Of(gas).At(90 * sky.Degree)
	assert.InDelta(t, 1.8704e-6*0.906, at, 0.002e-6, "less 0.107 magnitudes of air")
}

func TestEveryRememberedObjectIsInTheCatalogue(t *testing.T) {
	types := map[string]string{}
	for _, o := range catalog.DeepSky() {
		types[o.ID] = o.Type
	}
	for _, id := range light.RememberedIDs() {
		clusters := map[string]bool{"NGC 2244": true, "NGC 1893": true} // in the Rosette and in IC 410
		if !clusters[id] {
			assert.Contains(t, []string{"bright nebula", "supernova remnant"}, types[id], id)
		}
	}
	for _, kind := range catalog.Types() {
		s := light.SourceOf(catalog.Object{Type: kind})
		assert.True(t, s.Continuum || s.ByLines(), kind)
	}
}

// The cluster in the Rosette is framed with it, and shines as it does: by lines.
func TestAClusterInItsNebulaShinesAsTheNebula(t *testing.T) {
	of := func(name string) light.Source {
		o, err := catalog.Find(name)
		assert.NoError(t, err)
		return light.SourceOf(o)
	}
	assert.True(t, of("NGC 2244").ByLines())
	assert.Equal(t, of("NGC 2237").Hα(), of("NGC 2244").Hα())
	assert.Equal(t, light.Remembered, of("NGC 2244").Origin)
	assert.False(t, of("M 45").ByLines())
}
