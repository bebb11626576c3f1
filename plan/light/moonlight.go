package light

import (
	"math"

	"duskhand/plan/scan"
	"duskhand/sky"
)

// Moonlight is the Moon, a place in the sky and the air between. PhaseAngle is the angle at the Moon between
// Sun and observer, 0° when full; altitudes are airless; Separation is from the Moon to the place.
type Moonlight struct {
	PhaseAngle, MoonAltitude, Altitude, Separation sky.Angle
	ExtinctionMagPerAirmass                        float64
}

// moonLimb is nearer than which no sky is beside the Moon: its semidiameter.
const moonLimb = 0.25

// Nanolamberts returns the brightness that the Moon's scattered light gives the place, 0 while either is below
// the horizon. scan.LayerAirmass is the way through the layers that scatter.
//
// Error:  8 to 23 % by the authors. Within 7° of full the Moon is brighter than their phase law has it, by up
// to a third (memory); haze and cirrus scatter more, and are not in it.
// Source: Krisciunas & Schaefer 1991, PASP 103, 1033, eq. 15 (this and the numbers below by memory).
func (m Moonlight) Nanolamberts() float64 {
	if m.MoonAltitude <= 0 || m.Altitude <= 0 {
		return 0
	}
	dims := func(altitude sky.Angle) float64 {
		return math.Pow(10, -0.4*m.ExtinctionMagPerAirmass*scan.LayerAirmass(altitude))
	}
	molecules, dust := scattering(m.Separation)
	return (molecules + dust) * moonIlluminance(m.PhaseAngle) * dims(m.MoonAltitude) * (1 - dims(m.Altitude)) // 15
}

// moonIlluminance is what the Moon sheds on a surface outside the air, in the paper's unit, the foot-candle.
func moonIlluminance(phaseAngle sky.Angle) float64 {
	return math.Pow(10, -0.4*(MoonMagnitude(phaseAngle)+16.57)) // 8
}

// MoonMagnitude returns the Moon's V magnitude at its mean distance.
//
// Error:  0.3 within 7° of full, where it is brighter (memory).
// Source: Krisciunas & Schaefer 1991, eq. 9.
func MoonMagnitude(phaseAngle sky.Angle) float64 {
	α := phaseAngle.Abs().Degrees()
	return -12.73 + 0.026*α + 4e-9*math.Pow(α, 4)
}

// scattering is the share that the air scatters by an angle: by its molecules, and by its dust, whose forward
// peak has a formula of its own below 10°.
func scattering(separation sky.Angle) (molecules, dust float64) {
	ρ := math.Max(separation.Degrees(), moonLimb)
	molecules = math.Pow(10, 5.36) * (1.06 + separation.Cos()*separation.Cos()) // 17
	if ρ < 10 {
		return molecules, 6.2e7 / (ρ * ρ) // 19
	}
	return molecules, math.Pow(10, 6.15-ρ/40) // 18
}

// DarkNanolamberts returns the brightness of the moonless sky at an airless altitude from that at the zenith, in
// V magnitudes per square second of arc: lower there is more of the shining layer in the line of sight, and more
// air before it.
//
// Source: ibid., eq. 2.
func DarkNanolamberts(zenithMag, extinctionMagPerAirmass float64, altitude sky.Angle) float64 {
	x := scan.LayerAirmass(altitude)
	return Nanolamberts(zenithMag) * math.Pow(10, -0.4*extinctionMagPerAirmass*(x-1)) * x
}

// Nanolamberts returns a brightness in V magnitudes per square second of arc in nanolamberts.
// Source: Krisciunas & Schaefer 1991, eq. 1.
func Nanolamberts(vMagPerArcsec2 float64) float64 {
	return 34.08 * math.Exp(20.7233-0.92104*vMagPerArcsec2)
}

// MagPerArcsec2 returns a brightness in nanolamberts, above 0, in V magnitudes per square second of arc.
func MagPerArcsec2(nanolamberts float64) float64 {
	return (20.7233 - math.Log(nanolamberts/34.08)) / 0.92104
}

// PhaseAngle returns the angle at the Moon between Sun and observer, 0° when full, [0°, 180°].
//
// Source: Meeus 1998, Astronomical Algorithms, eq. 48.1 turned round, k = (1 + cos i)/2.
func PhaseAngle(moon sky.Moon) sky.Angle {
	return sky.Angle(math.Acos(max(-1, min(1, 2*moon.Illuminated-1))))
}
