package measure_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/measure"
	"duskhand/sky"
)

var good = spot{flux: 30000, hfd: 3.2}

func TestMereSkyHasNoStars(t *testing.T) {
	got := frame(t, blank(1024, 1024, 1000).expose(seeded(10)))
	assert.LessOrEqual(t, got.Count, 1, "a million pixels of noise pass 5 σ once in three frames, before the flux is asked")
	assert.Zero(t, got.HFD)
	assert.Zero(t, got.Elongation)
	assert.InDelta(t, 1000, got.Background, 0.5)
	assert.InEpsilon(t, math.Sqrt(1000+readNoise*readNoise), got.Noise, 0.03, "clipping at 3 σ takes 1.4 %")
}

func TestGradientIsNoStar(t *testing.T) {
	p := blank(512, 512, 1000)
	for i := range p.values {
		p.values[i] += float32(3*(i%512) + 2*(i/512)) // 2,500 ADU from corner to corner
	}
	drawn := p.scatter(good, 50, seeded(11))
	got := frame(t, p.expose(seeded(12)))
	assert.Equal(t, len(drawn), got.Count)
	assert.InEpsilon(t, good.hfd, got.HFD, 0.03)
}

func TestHotPixelsAndCosmicRaysAreNoStars(t *testing.T) {
	p := blank(512, 512, 1000)
	drawn := p.scatter(good, 50, seeded(13))
	p.expose(seeded(14))
	random := seeded(15)
	for range 500 {
		p.values[random.IntN(len(p.values))] += float32(200 + 30000*random.Float64())
	}
	for range 20 { // a ray through two pixels
		at := random.IntN(len(p.values) - 1)
		p.values[at], p.values[at+1] = 8000, 8000
	}
	got := frame(t, p)
	assert.Equal(t, len(drawn), got.Count)
	assert.InEpsilon(t, good.hfd, got.HFD, 0.03)
}

func TestTrailIsNoStar(t *testing.T) {
	for _, level := range []float64{60, 150, 300, 5000} { // of the trail, ADU above the sky, whose noise is 32
		p := blank(700, 700, 1000)
		drawn := p.scatter(good, 70, seeded(16))
		for x := range 700 {
			y := 200 + 0.37*float64(x)
			for row := int(y) - 6; row <= int(y)+6; row++ {
				p.values[row*700+x] += float32(level * math.Exp(-(float64(row)-y)*(float64(row)-y)/4))
			}
		}
		got := frame(t, p.expose(seeded(17)))
		wrong := slices.DeleteFunc(slices.Clone(got.Stars), func(s subs.Star) bool { return nearestSpot(drawn, s) < 3 })
		if level < 100 { // it falls to pieces, and some are as short as stars
			assert.Less(t, len(wrong), 12, "%+v", wrong)
		} else {
			assert.Empty(t, wrong, "a trail of %g ADU", level)
		}
		assert.GreaterOrEqual(t, got.Count, len(drawn)*8/10, "only stars behind the trail are lost")
	}
}

func TestNebulaIsNoStar(t *testing.T) {
	p := blank(768, 768, 1000)
	random := seeded(18)
	for range 120 { // lumps and filaments from ten pixels up, to thirty times the noise of the sky
		p.draw(spot{
			x: 150 + 450*random.Float64(), y: 150 + 450*random.Float64(), flux: 3e5 + 2e6*random.Float64(),
			hfd: 25 + 70*random.Float64(), ratio: 1 + 3*random.Float64(), angle: sky.Angle(math.Pi * random.Float64()),
		})
	}
	drawn := p.scatter(good, 60, seeded(19))
	got := frame(t, p.expose(seeded(20)))
	false_, found := 0, 0
	for _, s := range got.Stars {
		if nearestSpot(drawn, s) > 2 {
			false_++
		}
	}
	for _, s := range drawn {
		if star := nearest(got.Stars, s.x, s.y); math.Hypot(star.X-s.x, star.Y-s.y) < 1 {
			found++
		}
	}
	t.Logf("%d of %d stars, %d that are none, HFD %.3f", found, len(drawn), false_, got.HFD)
	assert.GreaterOrEqual(t, found, len(drawn)*97/100)
	assert.LessOrEqual(t, false_, len(drawn)*3/100)
	assert.InEpsilon(t, good.hfd, got.HFD, 0.05, "nebula within the aperture adds to the frame's own 3 %")
}

func TestSaturatedStarIsOneAndSaysSo(t *testing.T) {
	for name, top := range map[string]float64{"16 bits": 65535, "14 bits in a file of 16": 16383, "12 bits": 4095} {
		t.Run(name, func(t *testing.T) {
			p := blank(512, 512, 1000)
			drawn := p.scatter(good, 80, seeded(21))
			p.draw(spot{x: 200, y: 201.4, flux: 4e7, hfd: 4, beta: 3})
			p.top = top
			p.expose(seeded(22))
			p.top = 65535 // all that the file says
			got := frame(t, p)
			require.NotEmpty(t, got.Stars)
			assert.True(t, got.Stars[0].Saturated)
			assert.InDelta(t, 200, got.Stars[0].X, 0.3)
			assert.InDelta(t, 201.4, got.Stars[0].Y, 0.3)
			for _, s := range got.Stars[1:] {
				assert.False(t, s.Saturated, "at %.1f, %.1f, peak %.0f", s.X, s.Y, s.Peak)
				assert.Less(t, nearestSpot(drawn, s), 3.0, "%.1f, %.1f", s.X, s.Y)
			}
			assert.InEpsilon(t, good.hfd, got.HFD, 0.03, "saturated stars have no part in it")
		})
	}
}

func TestCloseStarsAreTwo(t *testing.T) {
	for _, apart := range []float64{6, 8, 12} {
		p := blank(256, 256, 1000)
		p.scatter(good, 60, seeded(23))
		before := frame(t, p.expose(seeded(24))).Count
		p = blank(256, 256, 1000)
		for _, s := range p.scatter(good, 60, seeded(23)) {
			s.x, s.flux = s.x+apart, s.flux/3
			p.draw(s)
		}
		assert.Equal(t, 2*before, frame(t, p.expose(seeded(24))).Count, "%g pixels apart", apart)
	}
}

func TestRawColourFrameIsMeasured(t *testing.T) {
	p := blank(512, 512, 1000)
	drawn := p.scatter(good, 50, seeded(25))
	for i := range p.values {
		p.values[i] *= [2][2]float32{{0.8, 1}, {1, 0.7}}[i/512%2][i%2] // red, green, green, blue
	}
	got := frame(t, p.expose(seeded(26)))
	assert.Equal(t, len(drawn), got.Count)
	assert.InEpsilon(t, good.hfd, got.HFD, 0.1, "each star lies on few pixels of each colour")
}

func TestPixelsWithoutAValueAreLeftOut(t *testing.T) {
	p := blank(512, 512, 1000)
	drawn := p.scatter(good, 50, seeded(27))
	p.expose(seeded(28))
	for y := range 512 {
		for x := range 120 {
			p.values[y*512+x] = float32(math.NaN())
		}
		p.values[y*512+300] = float32(math.Inf(1))
	}
	got := frame(t, p)
	kept := slices.DeleteFunc(slices.Clone(drawn), func(s spot) bool { return s.x < 125 })
	assert.Equal(t, len(kept), got.Count, "the dead column runs through nine stars")
	for _, s := range got.Stars {
		assert.Less(t, nearestSpot(drawn, s), 2.0, "%.1f, %.1f", s.X, s.Y)
	}
}

func TestWhatCannotBeMeasuredIsSaid(t *testing.T) {
	_, err := measure.New(1, 10).Frame(blank(20, 4000, 1))
	assert.ErrorContains(t, err, "20 × 4000 pixels; from 32 × 32 up")
	_, err = measure.New(1, 10).Frame(blank(100, 100, math.NaN()))
	assert.ErrorIs(t, err, measure.ErrNoSky)
	got, err := measure.New(1, 10).Frame(blank(100, 100, 500))
	require.NoError(t, err, "a frame without noise")
	assert.Equal(t, subs.Measured{Background: 500, Noise: got.Noise}, got)
}

func TestBrightestAreKeptAndAllCounted(t *testing.T) {
	p := blank(512, 512, 1000)
	random := seeded(29)
	for y := 30; y < 500; y += 40 {
		for x := 30; x < 500; x += 40 {
			p.draw(spot{x: float64(x), y: float64(y), hfd: 3, flux: 5000 + 90000*random.Float64()})
		}
	}
	p.expose(seeded(30))
	all, err := measure.New(2, 1000).Frame(p)
	require.NoError(t, err)
	few, err := measure.New(2, 10).Frame(p)
	require.NoError(t, err)
	assert.Equal(t, 144, all.Count)
	assert.Equal(t, all.Stars[:10], few.Stars)
	few.Stars, all.Stars = nil, nil
	assert.Equal(t, all, few)
}

func nearestSpot(drawn []spot, s subs.Star) float64 {
	least := math.Inf(1)
	for _, d := range drawn {
		least = min(least, math.Hypot(d.x-s.X, d.y-s.Y))
	}
	return least
}
