package scan

import (
	"math"

	"duskhand/sky"
)

// ExtinctionMag is what one airmass takes of visual light, in magnitudes (Krisciunas & Schaefer 1991).
const ExtinctionMag = 0.172

// LayerAirmass returns the way through a layer high in the atmosphere, in units of that overhead, for an
// airless altitude; below the horizon that at the horizon, 5.
//
// Source: Krisciunas & Schaefer 1991, PASP 103, 1033, eq. 3.
func LayerAirmass(altitude sky.Angle) float64 {
	cos := math.Cos(math.Max(0, float64(altitude)))
	return 1 / math.Sqrt(1-0.96*cos*cos)
}

// Height returns how much of an hour at the zenith an hour at an altitude makes up for, under a dark sky.
//
// Where the sky's own light sets the noise, exposure for a given signal to noise goes as the sky's brightness
// over the square of the signal. The signal pays the extinction; the dark sky brightens towards the horizon.
// Source: ibid., eq. 2 and 3.
func Height(altitude sky.Angle) float64 {
	x := LayerAirmass(altitude)
	through := math.Pow(10, -0.4*ExtinctionMag*(x-1))
	own := x * through // 2, over that at the zenith
	return through * through / own
}
