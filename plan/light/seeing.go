package light

import (
	"math"

	"duskhand/sky"
)

// SeeingAt returns how wide the air makes a star at an airless altitude at a wavelength, from how wide it is overhead in
// V: full widths at half maximum. Below the horizon it returns that overhead.
//
// Valid:  while turbulence sets the width, and not the lens, the focus or the guiding.
// Source: Kolmogorov turbulence, Fried 1966, JOSA 56, 1372: as X^0.6 and λ^−0.2 (the project's handbook, section 14).
func SeeingAt(overhead, altitude sky.Angle, λ Wavelength) sky.Angle {
	x, ok := sky.Airmass(altitude)
	if !ok {
		return overhead
	}
	return overhead * sky.Angle(math.Pow(x, 0.6)*math.Pow(float64(λ/middleOfV), -0.2))
}

// Middle returns the wavelength in the middle of a band.
func (b Band) Middle() Wavelength { return (b.From + b.To) / 2 }
