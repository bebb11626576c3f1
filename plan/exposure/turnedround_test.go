package exposure_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/exposure"
	"duskhand/sky"
)

// Handbook, section 10: the read noise may raise the noise by a share; at the shortest sub it does by just that.
func TestTheShortestSubTurnsItsFormulaRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		read := rapid.Float64Range(0.5, 15).Draw(t, "read noise")
		background := rapid.Float64Range(0.01, 50).Draw(t, "background")
		share := rapid.Float64Range(0.01, 0.5).Draw(t, "share")
		sub, ok := exposure.ShortestSub(read, background, share)
		if !ok {
			require.Greater(t, read*read/(((1+share)*(1+share)-1)*background), 86400.0)
			return
		}
		require.InDelta(t, share, exposure.ReadNoiseShare(read, background, sub), 1e-3*share+1e-6)
		longer := exposure.ReadNoiseShare(read, background, 2*sub)
		require.Less(t, longer, share, "a longer sub loses less")
		twice, ok := exposure.ShortestSub(2*read, background, share)
		require.True(t, !ok || math.Abs(float64(twice)/float64(sub)-4) < 1e-3, "by the square of the read noise")
	})
}

// Subs add up as their square root, whatever they are of; and so many as are asked for are enough, one fewer not.
func TestHowManySubsItTakes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := exposure.Pixel{
			ObjectEPerS: rapid.Float64Range(0.001, 10).Draw(t, "object"),
			SkyEPerS:    rapid.Float64Range(0.001, 20).Draw(t, "sky"),
			DarkEPerS:   rapid.Float64Range(0, 1).Draw(t, "dark"),
			ReadNoiseE:  rapid.Float64Range(0, 10).Draw(t, "read noise"),
		}
		sub := time.Duration(rapid.IntRange(1, 600).Draw(t, "seconds")) * time.Second
		wanted := rapid.Float64Range(1, 100).Draw(t, "signal to noise")
		pixels := rapid.Float64Range(1, 100).Draw(t, "pixels")
		one := p.SignalToNoise(pixels, 1, sub)
		require.InEpsilon(t, 3*one, p.SignalToNoise(pixels, 9, sub), 1e-9)
		require.InEpsilon(t, 2*one, p.SignalToNoise(4*pixels, 1, sub), 1e-9)
		n, ok := p.SubsFor(wanted, pixels, sub)
		if !ok {
			require.Less(t, p.SignalToNoise(pixels, 1e6, sub), wanted)
			return
		}
		require.GreaterOrEqual(t, p.SignalToNoise(pixels, n, sub), wanted*(1-1e-9))
		if n > 1 {
			require.Less(t, p.SignalToNoise(pixels, n-1, sub), wanted)
		}
	})
}

// The share of a Gaussian star in its brightest pixel against an integral by points.
func TestThePeakOfAStarByPoints(t *testing.T) {
	for _, width := range []float64{0.8, 1, 2, 3, 5} { // pixels, full width at half maximum
		sigma := width / 2.3548200450
		const n = 400
		sum := 0.0
		for i := range n {
			for j := range n {
				x, y := (float64(i)+0.5)/n-0.5, (float64(j)+0.5)/n-0.5
				sum += math.Exp(-(x*x+y*y)/(2*sigma*sigma)) / (2 * math.Pi * sigma * sigma) / (n * n)
			}
		}
		got := exposure.PeakShare(sky.Angle(width)*2*sky.Arcsecond, 2*sky.Arcsecond)
		assert.InDelta(t, sum, got, 1e-5, "%g pixels", width)
	}
}
