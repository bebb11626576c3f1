package measure_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/measure"
	"duskhand/sky"
)

func frame(t *testing.T, p *picture) subs.Measured {
	t.Helper()
	got, err := measure.New(2, measure.Kept).Frame(p)
	require.NoError(t, err)
	return got
}

// The expected diameters are those the stars were drawn with, see spot. 3 % is the bound that Frame states.
func TestHalfFluxDiameterIsThatOfTheLight(t *testing.T) {
	for _, beta := range []float64{0, 2.5, 3, 4.765} {
		for _, hfd := range []float64{2.5, 3, 4, 6, 10} {
			name := fmt.Sprintf("Moffat of exponent %g, %g pixels", beta, hfd)
			if beta == 0 {
				name = fmt.Sprintf("Gaussian, %g pixels", hfd)
			}
			t.Run(name, func(t *testing.T) {
				p := blank(420, 420, 1000)
				// Eight diameters apart, so that no star has much of its neighbour's wings.
				drawn := p.scatter(spot{flux: 4000 * hfd * hfd, hfd: hfd, beta: beta}, int(20+8*hfd), seeded(1))
				got := frame(t, p.expose(seeded(2)))
				require.Equal(t, len(drawn), got.Count)
				assert.InEpsilon(t, hfd, got.HFD, 0.03)
				t.Logf("%s: %.3f, %+.1f %%", name, got.HFD, 100*(got.HFD/hfd-1))
			})
		}
	}
}

// The centroids' own noise is about σ/(signal to noise) of the star: 0.01 to 0.02 pixel here; the bound is the
// project's.
func TestCentroidsAreWhereTheStarsWereDrawn(t *testing.T) {
	for _, hfd := range []float64{2.5, 3.2, 6} {
		t.Run(fmt.Sprintf("%g pixels", hfd), func(t *testing.T) {
			p := blank(500, 500, 1000)
			drawn := p.scatter(spot{flux: 10_000 * hfd, hfd: hfd}, 40, seeded(3))
			got := frame(t, p.expose(seeded(4)))
			require.Equal(t, len(drawn), got.Count)
			for _, s := range drawn {
				star := nearest(got.Stars, s.x, s.y)
				assert.Less(t, math.Hypot(star.X-s.x, star.Y-s.y), 0.1, "drawn at %.2f, %.2f, found at %.2f, %.2f", s.x, s.y, star.X, star.Y)
				assert.InEpsilon(t, s.flux, star.Flux, 0.1, "5 σ of the flux's own noise at 6 pixels")
			}
		})
	}
}

func TestElongationAndItsDirection(t *testing.T) {
	for _, c := range []struct {
		ratio, hfd float64
		angle      sky.Angle
	}{
		{1, 3, 0}, {1, 6, 0},
		{1.2, 3, 30 * sky.Degree}, {1.2, 5, 120 * sky.Degree},
		{1.5, 3, 0}, {1.5, 4, 90 * sky.Degree}, {1.5, 4, 170 * sky.Degree},
		{2, 4, 45 * sky.Degree}, {2, 6, 135 * sky.Degree},
	} {
		t.Run(fmt.Sprintf("%g along %.0f°, %g pixels", c.ratio, c.angle.Degrees(), c.hfd), func(t *testing.T) {
			p := blank(420, 420, 1000)
			p.scatter(spot{flux: 3000 * c.hfd * c.hfd, hfd: c.hfd, ratio: c.ratio, angle: c.angle}, 60, seeded(5))
			got := frame(t, p.expose(seeded(6)))
			assert.InEpsilon(t, c.ratio, got.Elongation, 0.03, "a tenth of what an eye sees on a frame")
			assert.True(t, got.Direction >= 0 && got.Direction < 180*sky.Degree)
			if c.ratio > 1 {
				apart := (2 * (got.Direction - c.angle)).Signed() / 2 // directions repeat after half a turn
				assert.InDelta(t, 0, apart.Degrees(), 3, "found %s", got.Direction)
			}
		})
	}
}

func TestFaintRoundStarsAreNotElongatedByNoise(t *testing.T) {
	p := blank(800, 800, 1000)
	p.scatter(spot{flux: 5000, hfd: 3.5}, 40, seeded(7)) // some 15 σ
	got := frame(t, p.expose(seeded(8)))
	assert.Less(t, got.Elongation, 1.06)
	assert.InEpsilon(t, 3.5, got.HFD, 0.05, "the noise of the median of 361 faint stars is 1 %")
}

func nearest(stars []subs.Star, x, y float64) subs.Star {
	return slices.MinFunc(stars, func(a, b subs.Star) int {
		if math.Hypot(a.X-x, a.Y-y) < math.Hypot(b.X-x, b.Y-y) {
			return -1
		}
		return 1
	})
}
