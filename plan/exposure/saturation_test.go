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

// peakBySum adds up the Gaussian over 400 × 400 points of the pixel: the slow way.
func peakBySum(fwhm, pixel float64) float64 {
	const n = 400
	sigma2 := fwhm * fwhm / (8 * math.Ln2)
	sum := 0.0
	for i := range n {
		for j := range n {
			x, y := ((float64(i)+0.5)/n-0.5)*pixel, ((float64(j)+0.5)/n-0.5)*pixel
			sum += math.Exp(-(x*x + y*y) / (2 * sigma2))
		}
	}
	return sum * pixel * pixel / (n * n) / (2 * math.Pi * sigma2)
}

func TestPeakShareAgainstASum(t *testing.T) {
	for _, c := range []struct{ fwhm, pixel float64 }{{3, 1.6157}, {2, 1}, {4, 3}, {1, 4}} {
		got := exposure.PeakShare(sky.Angle(c.fwhm)*sky.Arcsecond, sky.Angle(c.pixel)*sky.Arcsecond)
		assert.InDelta(t, peakBySum(c.fwhm, c.pixel), got, 1e-4, "%+v", c) // the sum's steps
	}
}

// On a pixel of next to no size the share is the height of the peak times the pixel's area.
func TestPeakShareOfATinyPixel(t *testing.T) {
	const p = 1e-3
	got := exposure.PeakShare(1*sky.Arcsecond, p*sky.Arcsecond)
	assert.InEpsilon(t, 4*math.Ln2/math.Pi*p*p, got, 1e-5) // the Gaussian's height at its middle is 4 ln 2/(π·FWHM²)
	assert.InDelta(t, 1, exposure.PeakShare(1*sky.Arcsecond, 10*sky.Arcsecond), 1e-12, "all of it on a wide pixel")
}

func exampleWell() exposure.Well {
	return exposure.Well{FullE: 20000, BackgroundEPerS: 0.6152584, StarWidth: 3 * sky.Arcsecond}
}

func TestSaturationByHand(t *testing.T) {
	l := exampleLight(t)
	// 60 s: 20000 − 36.9155 = 19963.08 of room; 0.2246797 × 1.025416e8 × 60 = 1.382330e9 at magnitude 0;
	// 2.5 log10(1.382330e9 / 19963.08) = 2.5 × 4.840388 = 12.10097. Computed in Python beside this.
	mag, ok := l.SaturatesAt(exampleWell(), time.Minute)
	require.True(t, ok)
	assert.InDelta(t, 12.10097, mag, 0.0001)
	sub, ok := l.SaturatesAfter(exampleWell(), mag)
	require.True(t, ok)
	assert.InDelta(t, 60, sub.Seconds(), 1e-6, "the one turns round the other")
}

func TestASkyThatFillsTheWellLeavesNoStar(t *testing.T) {
	l, w := exampleLight(t), exampleWell()
	w.BackgroundEPerS = 400
	_, ok := l.SaturatesAt(w, 50*time.Second)
	assert.False(t, ok, "400 × 50 = 20000")
	sub, ok := l.SaturatesAfter(w, 99)
	require.True(t, ok)
	assert.InDelta(t, 50, sub.Seconds(), 1e-6, "no star to speak of: the sky alone")
	_, ok = l.SaturatesAfter(exposure.Well{FullE: 1e7, StarWidth: 3 * sky.Arcsecond}, 30)
	assert.False(t, ok, "more than a day")
}

func TestSaturationTurnsRoundAndIsMonotonic(t *testing.T) {
	l := exampleLight(t)
	rapid.Check(t, func(t *rapid.T) {
		w := exposure.Well{
			FullE:           rapid.Float64Range(1e3, 1e6).Draw(t, "well"),
			BackgroundEPerS: rapid.Float64Range(0, 5).Draw(t, "background"),
			StarWidth:       sky.Angle(rapid.Float64Range(0.5, 10).Draw(t, "width")) * sky.Arcsecond,
		}
		sub := time.Duration(rapid.Float64Range(0.1, 190).Draw(t, "seconds") * float64(time.Second))
		mag, ok := l.SaturatesAt(w, sub)
		if !ok {
			t.Fatalf("%v of well and %v of sky in %v leave room", w.FullE, w.BackgroundEPerS, sub)
		}
		if back, ok := l.SaturatesAfter(w, mag); !ok || math.Abs(back.Seconds()/sub.Seconds()-1) > 1e-6 {
			t.Fatalf("a star of %v fills it in %v, not %v", mag, back, sub)
		}
		if longer, ok := l.SaturatesAt(w, sub+sub/10); ok && longer <= mag {
			t.Fatalf("a longer sub must fill it by a fainter star: %v, then %v", mag, longer)
		}
	})
}
