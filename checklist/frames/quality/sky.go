package quality

import (
	"math"

	"duskhand/checklist"
	"duskhand/plan/kit"
)

// SkyBrightness returns how bright the sky was in a light, magnitudes per square second of arc, as VT of stars whose
// light comes through the same filter. ok is false for a light that was not placed, and without the camera's gain.
//
// What a camera adds to the pixels is not known, but what the sky's light makes of their noise is: σ²g² electrons, the
// square of the read noise taken off. The magnitude of 1 ADU is that of the light's own stars, so that air and filter
// drop out.
//
// Error:  0.1 in artificial frames; with a filter whose band is not that of VT as much as the sky's colour differs from
// that of the middle star.
// Source: own derivation; the variance of a pixel is common practice (Howell, Handbook of CCD Astronomy, 2nd ed., 4.4).
func SkyBrightness(a checklist.Arrived, k kit.Kit) (magnitude float64, ok bool) {
	if a.Measured == nil || a.Placed == nil || a.Placed.ZeroMag == nil || k.Camera.GainEPerADU <= 0 {
		return 0, false
	}
	gain, binned := k.Camera.GainEPerADU, float64(max(1, a.BinX)*max(1, a.BinY))
	electrons := square(a.Measured.Noise*gain) - binned*square(k.Camera.ReadNoiseE)
	if electrons <= 0 || a.Placed.ScaleArcsec <= 0 {
		return 0, false
	}
	return *a.Placed.ZeroMag - 2.5*math.Log10(electrons/gain/square(a.Placed.ScaleArcsec)), true
}

func square(x float64) float64 { return x * x }
