package sky

import "math"

// Air is the state of the air at the observer: pressure there, not reduced to sea level.
type Air struct{ PressureHPa, TemperatureC float64 }

// lowestRefracted is where the formula is held: below, no star is looked at, and its tangent would run
// away near −5.1°.
const lowestRefracted = -1 * Degree

// Refraction returns by how much air lifts a direction of the given airless altitude. Add it.
//
// Range: 0 at the zenith (never below); under −1° it is held at the value of −1°.
// Error: 10″ down to 5° altitude in a standard atmosphere; real air near the horizon differs by more.
// Source: Sæmundsson's formula, Meeus eq. 16.4, scaled by P/1010 · 283/(273 + T) (ibid., p. 107).
func (air Air) Refraction(airless Angle) Angle {
	h := math.Max(airless.Degrees(), lowestRefracted.Degrees())
	R := 1.02 / math.Tan((h+10.3/(h+5.11))*math.Pi/180)
	R *= air.PressureHPa / 1010 * 283 / (273 + air.TemperatureC)
	return Angle(math.Max(R, 0)) * Arcminute
}
