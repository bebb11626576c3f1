package exposure

import (
	"math"
	"time"

	"duskhand/sky"
)

// Well is a pixel that fills: what it holds, what sky and dark current pour into it, and how wide the image of
// a star is, full width at half maximum.
type Well struct {
	FullE, BackgroundEPerS float64
	StarWidth              sky.Angle
}

// PeakShare returns the share of a star's light that falls on one square pixel when the star stands on its
// middle, for a round Gaussian image.
//
// Error: real images have wider skirts and so a lower peak; a star on a corner of four pixels fills each less.
// Source: the Gaussian integrated over the pixel, erf(p/(2√2·σ))², σ = FWHM/√(8·ln 2).
func PeakShare(starWidth, perPixel sky.Angle) float64 {
	sigma := float64(starWidth) / math.Sqrt(8*math.Ln2)
	along := math.Erf(float64(perPixel) / (2 * math.Sqrt2 * sigma))
	return along * along
}

// SaturatesAt returns the V magnitude, below the air, of the star whose brightest pixel just fills in a sub;
// brighter stars burn out. ok is false when the background alone fills it.
func (l Light) SaturatesAt(w Well, sub time.Duration) (vMag float64, ok bool) {
	room := w.FullE - w.BackgroundEPerS*sub.Seconds()
	if room <= 0 {
		return 0, false
	}
	atMag0 := PeakShare(w.StarWidth, l.PerPixel) * l.StarElectronsPerS(0) * sub.Seconds()
	return -2.5 * math.Log10(room/atMag0), true
}

// SaturatesAfter returns the sub in which a star of a V magnitude, below the air, just fills its brightest
// pixel; ok is false when that takes more than a day.
func (l Light) SaturatesAfter(w Well, vMag float64) (sub time.Duration, ok bool) {
	perSecond := PeakShare(w.StarWidth, l.PerPixel)*l.StarElectronsPerS(vMag) + w.BackgroundEPerS
	return lasting(w.FullE / perSecond)
}
