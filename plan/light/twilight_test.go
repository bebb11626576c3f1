package light_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/sky"
)

// By hand from the source's fit and its night in V: 11.84 + 1.518·7 − 0.057·49 = 19.673 with the Sun 12° down, of which
// 21.6 are the night's; the same in B: 11.84 + 1.411·7 − 0.041·49 = 19.708 of 22.6.
func TestTwilightByHand(t *testing.T) {
	v, colours, ok := light.TwilightColours(-12 * sky.Degree)
	require.True(t, ok)
	wantV := -2.5 * math.Log10(math.Pow(10, -0.4*19.673)-math.Pow(10, -0.4*21.6))
	wantB := -2.5 * math.Log10(math.Pow(10, -0.4*19.708)-math.Pow(10, -0.4*22.6))
	assert.InDelta(t, wantV, v, 1e-3)
	assert.InDelta(t, wantB-wantV, colours[1], 1e-3, "by day's end the sky is blue: B − V is near 0")
	_, _, ok = light.TwilightColours(-18 * sky.Degree)
	assert.False(t, ok)
}

func TestTwilightFadesTheLowerTheSun(t *testing.T) {
	views := []*light.View{}
	for _, f := range []kit.Filter{{Kind: kit.Broad, CentreNM: 550, BandwidthNM: 300}, {Kind: kit.Broad, CentreNM: 455, BandwidthNM: 100}, {Kind: kit.LineFilter, CentreNM: 656.28, BandwidthNM: 3}} {
		views = append(views, light.Through(f, kit.Site{}))
	}
	for i, v := range views {
		before := math.Inf(1)
		for depth := 5.0; depth <= 18; depth += 0.25 {
			now := v.Twilit(sky.Angle(-depth) * sky.Degree)
			assert.Less(t, now, before, "filter %d, Sun %.2f° down", i, depth)
			before = now
		}
		assert.Zero(t, before)
	}
	// Common practice: with the Sun 9° down the sky is far too bright for luminance and a narrow line filter sees a
	// hundredth of it, while at 15° half a night's light is left of it at most.
	night := views[0].Moonless(90 * sky.Degree)
	assert.Greater(t, views[0].Twilit(-9*sky.Degree), 20*night)
	assert.Less(t, views[0].Twilit(-15*sky.Degree), 0.6*night)
	assert.Less(t, views[2].Twilit(-9*sky.Degree), 0.03*views[0].Twilit(-9*sky.Degree))
}

// A bright nebula in a narrow line can be taken early; a galaxy in luminance can't.
func TestWhatTwilightLeavesOfAMinute(t *testing.T) {
	site := kit.Site{}
	nebula := light.Source{Lines: []light.LineLight{{At: 656.28, Rayleighs: 500}}}
	galaxy := light.Source{Continuum: true, SurfaceMag: 23}
	ha := light.NewProspect(light.Through(kit.Filter{Kind: kit.LineFilter, CentreNM: 656.28, BandwidthNM: 3}, site), nebula, site, 0)
	l := light.NewProspect(light.Through(kit.Filter{Kind: kit.Broad, CentreNM: 550, BandwidthNM: 300}, site), galaxy, site, 0)
	leaves := func(p light.Prospect, sun sky.Angle) float64 { return p.Worth(90*sky.Degree, p.View.Twilit(sun)) }
	assert.Greater(t, leaves(ha, -12*sky.Degree), 0.5)
	assert.Less(t, leaves(l, -12*sky.Degree), 0.25)
	assert.Greater(t, leaves(l, -15*sky.Degree), 0.6)
}
