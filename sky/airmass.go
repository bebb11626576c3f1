package sky

import "math"

// Airmass returns the air looked through in units of that overhead, for an airless altitude from 0° up.
// Below the horizon ok is false.
// Source: Kasten & Young 1989, Applied Optics 28, 4735, eq. 3 with the constants of its table II.
func Airmass(airless Angle) (airmass float64, ok bool) {
	h := airless.Degrees()
	if h < 0 {
		return 0, false
	}
	return 1 / (airless.Sin() + 0.50572*math.Pow(h+6.07995, -1.6364)), true
}
