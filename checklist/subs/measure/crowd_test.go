package measure_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist/subs"
	"duskhand/sky"
)

// Lumps of a bright nebula outnumber the stars that are well above the noise: what is wanted are the stars.
func TestStarsAmongMoreLumpsOfNebula(t *testing.T) {
	for _, c := range []struct {
		name         string
		lumps, stars int
		least        float64 // share of the stars that stand clear of the noise
	}{
		{"more lumps than stars", 220, 30, 0.75},
		{"many more lumps than stars", 400, 30, 0.6},
		{"few lumps", 25, 60, 0.85},
	} {
		t.Run(c.name, func(t *testing.T) {
			for seed := range uint64(3) {
				p, drawn := nebulous(c.lumps, c.stars, 100+seed)
				got := frame(t, p)
				found, wrong := foundOf(drawn, got.Stars)
				t.Logf("seed %d: %d of %d stars, %d that are none, HFD %.2f", seed, found, len(drawn), wrong, got.HFD)
				assert.InEpsilon(t, 2.5, got.HFD, 0.25, "lumps within the apertures add to it")
				assert.GreaterOrEqual(t, float64(found), c.least*float64(len(drawn)))
			}
		})
	}
}

// Where every star is overexposed the rays of the Earth and the sky are all that is not; they say nothing of the
// stars' size.
func TestCosmicRaysDoNotSetTheDiameter(t *testing.T) {
	for seed := range uint64(4) {
		random := rand.New(rand.NewPCG(seed, 7))
		p := blank(700, 700, 1000)
		var drawn []spot
		for range 25 {
			s := spot{x: 30 + 640*random.Float64(), y: 30 + 640*random.Float64(), flux: 3e6 + 2e7*random.Float64(), hfd: 4}
			p.draw(s)
			drawn = append(drawn, s)
		}
		p.expose(random)
		for range 40 {
			ray(p, random)
		}
		got := frame(t, p)
		found, wrong := foundOf(drawn, got.Stars)
		t.Logf("seed %d: %d of %d stars, %d that are none, HFD %.2f", seed, found, len(drawn), wrong, got.HFD)
		assert.Greater(t, got.HFD, 3.5)
		assert.Less(t, got.HFD, 9.0, "a flat top widens a star")
		assert.GreaterOrEqual(t, found, len(drawn)*8/10)
	}
}

// ray draws a track of two to four pixels, as a particle leaves it.
func ray(p *picture, random *rand.Rand) {
	x, y := 10+random.IntN(p.width-20), 10+random.IntN(p.height-20)
	for range 2 + random.IntN(3) {
		p.values[y*p.width+x] += float32(3000 + 9000*random.Float64())
		if random.IntN(2) == 0 {
			x++
		} else {
			y++
		}
	}
}

// nebulous draws stars of 2.5 pixels and lumps and filaments of 11 to 43, brighter than most of them.
func nebulous(lumps, stars int, seed uint64) (*picture, []spot) {
	random := rand.New(rand.NewPCG(seed, 3))
	p := blank(600, 600, 1000)
	for range lumps {
		hfd := 11 * math.Pow(43.0/11, random.Float64())
		p.draw(spot{
			x: 600 * random.Float64(), y: 600 * random.Float64(), flux: hfd * hfd * (120 + 400*random.Float64()), hfd: hfd,
			ratio: 1 + random.Float64(), angle: sky.Angle(3 * random.Float64()),
		})
	}
	var drawn []spot
	for range stars {
		s := spot{x: 20 + 560*random.Float64(), y: 20 + 560*random.Float64(), flux: 8000 * math.Pow(100, random.Float64()), hfd: 2.5}
		p.draw(s)
		drawn = append(drawn, s)
	}
	return p.expose(random), drawn
}

// foundOf counts the stars that were found, and those that are none.
func foundOf(drawn []spot, stars []subs.Star) (found, wrong int) {
	for _, s := range drawn {
		if star := nearest(stars, s.x, s.y); math.Hypot(star.X-s.x, star.Y-s.y) < 1.5 {
			found++
		}
	}
	for _, s := range stars {
		if nearestSpot(drawn, s) > 2 {
			wrong++
		}
	}
	return found, wrong
}
