package measure_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/measure"
)

// shareOf is how much of the light each colour lets through, of stars and sky alike.
var (
	broad = map[byte]float32{'R': 0.35, 'G': 1, 'B': 0.6}
	red   = map[byte]float32{'R': 1, 'G': 0.04, 'B': 0.02} // through a filter for Hα
)

// mosaic is a picture as a colour chip shows it, and where its stars are.
func mosaic(order subs.Mosaic, shareOf map[byte]float32, seed uint64, stars int, hfd, brightest float64) (*picture, []spot) {
	p := blank(800, 620, 900)
	random := seeded(seed)
	var drawn []spot
	for i := range stars {
		s := spot{x: 40 + 80*float64(i%9) + 15*random.Float64(), y: 40 + 80*float64(i/9) + 15*random.Float64(), hfd: hfd, flux: 20000 * math.Pow(brightest/20000, float64(i)/float64(stars))}
		drawn = append(drawn, s)
		p.draw(s)
	}
	for y := range p.height {
		for x := range p.width {
			p.values[y*p.width+x] *= shareOf[order.At(x, y)]
		}
	}
	p.expose(random)
	return p, drawn
}

// Stars of a colour chip are where they are, as round and as large as they are, whichever colour the first pixel has;
// the sky is that of each colour.
func TestAColourChipIsMeasuredByItsCells(t *testing.T) {
	for i, name := range subs.Mosaics() {
		order := subs.Mosaic(name)
		p, drawn := mosaic(order, broad, uint64(i), 60, 5.2, 400000)
		got, err := measure.New(2, measure.Kept).Coloured(p, order)
		require.NoError(t, err)
		assert.Equal(t, len(drawn), got.Count)
		for _, s := range got.Stars {
			apart := math.Inf(1)
			for _, d := range drawn {
				apart = math.Min(apart, math.Hypot(s.X-d.x, s.Y-d.y))
			}
			assert.Less(t, apart, 1.0, "%s: %+v is no star", name, s)
		}
		assert.InEpsilon(t, 5.2, got.HFD, 0.04, name)
		assert.Less(t, got.Elongation, 1.06, name)
		for _, c := range got.Colours {
			share := float64(broad[c.Name[0]])
			assert.InDelta(t, 900*share, c.Background, 3, "%s of %s", c.Name, name)
			assert.InEpsilon(t, math.Sqrt(900*share+readNoise*readNoise), c.Noise, 0.05, "%s of %s", c.Name, name)
			assert.Zero(t, c.Saturated)
		}
	}
}

// Through a red filter one pixel in four has light, which across the mosaic is taken for so many hot pixels; by cells
// the stars are all there.
func TestTheMosaicItselfIsNoStar(t *testing.T) {
	p, drawn := mosaic("RGGB", red, 9, 60, 3.4, 400000)
	plain, err := measure.New(1, measure.Kept).Frame(p)
	require.NoError(t, err)
	coloured, err := measure.New(1, measure.Kept).Coloured(p, "RGGB")
	require.NoError(t, err)
	found := func(stars []subs.Star) (n int) {
		for _, d := range drawn {
			if s := nearest(stars, d.x, d.y); math.Hypot(s.X-d.x, s.Y-d.y) < 1.5 {
				n++
			}
		}
		return n
	}
	t.Logf("%d of %d by cells, half-flux diameter %.2f, elongation %.2f; %d across the mosaic, %.2f, %.2f", found(coloured.Stars), len(drawn),
		coloured.HFD, coloured.Elongation, found(plain.Stars), plain.HFD, plain.Elongation)
	assert.Equal(t, len(drawn), found(coloured.Stars))
	assert.InEpsilon(t, 3.4, coloured.HFD, 0.15, "of 1.7 cells")
	assert.Less(t, found(plain.Stars), len(drawn)/2)
}

// Green fills first; a star whose green is full is saturated, though the mean of its cell is not, and the share is
// that of each colour.
func TestAColourThatIsFullSaturatesItsStar(t *testing.T) {
	p, _ := mosaic("GRBG", broad, 4, 40, 5.2, 3e6)
	for i, v := range p.values {
		p.values[i] = min(v, 16383)
	}
	got, err := measure.New(1, measure.Kept).Coloured(p, "GRBG")
	require.NoError(t, err)
	assert.Positive(t, got.Full)
	assert.True(t, got.Stars[0].Saturated)
	share := map[string]float64{}
	for _, c := range got.Colours {
		share[c.Name] = c.Saturated
	}
	assert.Greater(t, share["G"], share["R"])
	assert.Greater(t, got.Saturated, 0.0)
}

// A frame whose stars grow towards its right edge shows it in its ninths, row by row.
func TestTheNinthsShowWhereStarsAreLarge(t *testing.T) {
	p := blank(900, 600, 500)
	random := seeded(12)
	for range 250 {
		x := 20 + 860*random.Float64()
		p.draw(spot{x: x, y: 20 + 560*random.Float64(), hfd: 3 + 2*x/900, flux: 60000})
	}
	p.expose(random)
	got, err := measure.New(2, measure.Kept).Frame(p)
	require.NoError(t, err)
	for row := range 3 {
		for column := range 3 {
			assert.InEpsilon(t, 3+2*(float64(column)+0.5)/3, got.Ninths[3*row+column], 0.06, "row %d, column %d", row, column)
		}
	}
}
