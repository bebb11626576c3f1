package light

import (
	"math"

	"duskhand/sky"
)

// twilightBands are the sky overhead in U, B, V, R and I while the Sun sinks: magnitudes per square second of arc with
// the Sun 5° down, and how they go on with each degree and its square, to 15°; and the same sky at night.
//
// Source: Patat, Ugolnikov & Postylyakov 2006, A&A 455, 385, table 1 (a0, a1, a2, for zenith distances of 95° to
// 105°); its night, Patat 2003, A&A 400, 1183 (both by memory).
var twilightBands = [...]struct{ at5, first, second, night float64 }{
	{11.78, 1.376, -0.039, 22.3}, {11.84, 1.411, -0.041, 22.6}, {11.84, 1.518, -0.057, 21.6},
	{11.40, 1.567, -0.064, 20.9}, {10.93, 1.470, -0.062, 19.7},
}

// The Sun's depths, in degrees, between which the source holds, and at which nothing is left of twilight.
const (
	twilightFrom, twilightTo = 5, 15
	twilightOver             = 18
)

// TwilightMagPerArcsec2 returns the V brightness of the clear sky overhead, its night's light included, while the Sun's
// centre stands at an airless altitude from 0° to −15°, in magnitudes per square second of arc.
//
// Error:  0.3 mag from night to night, between −5° and −15°; brighter twilight is a line of 1.2 mag a degree up to
// some 500 cd/m² at sunset (memory), good to a magnitude: a few minutes.
// Source: that of twilightBands, V.
func TwilightMagPerArcsec2(sun sky.Angle) float64 {
	const v, brighter = 2, 1.2
	x := -sun.Degrees() - twilightFrom
	if x < 0 {
		return twilightBands[v].at5 + brighter*x
	}
	return twilightMag(v, math.Min(x, twilightTo-twilightFrom))
}

// twilightMag is the fit in a band, some degrees below twilightFrom.
func twilightMag(band int, x float64) float64 {
	b := twilightBands[band]
	return b.at5 + b.first*x + b.second*x*x
}

// TwilightColours returns the light that twilight adds to the night's overhead while the Sun's centre stands at an
// airless altitude: V magnitudes per square second of arc, and its colours. ok is false with the Sun 18° down.
//
// Range:  for the Sun from 5° down; above that the sky at 5° is returned. From 15° on, where the source ends, what is
// left fades evenly to nothing at 18° (own choice).
// Error:  0.1 to 0.4 magnitudes by the source, for clear air. Towards the Sun, low, it is brighter by a magnitude or
// more, which is not in it.
// Source: that of twilightBands, less its night.
func TwilightColours(sun sky.Angle) (vMag float64, colours Colours, ok bool) {
	depth := -sun.Degrees()
	if depth >= twilightOver {
		return 0, Colours{}, false
	}
	fades := math.Min(1, (twilightOver-depth)/(twilightOver-twilightTo))
	x := math.Max(0, math.Min(twilightTo, depth)-twilightFrom)
	var mags Colours
	for i, b := range twilightBands {
		mags[i] = -2.5 * math.Log10(fades*(math.Pow(10, -0.4*twilightMag(i, x))-math.Pow(10, -0.4*b.night)))
	}
	const v = 2
	vMag = mags[v]
	for i := range mags {
		colours[i] = mags[i] - vMag
	}
	return vMag, colours, true
}

// Twilit returns what twilight adds to the sky, below the air, while the Sun's centre stands at an airless altitude;
// 0 with the Sun 18° down. It is that overhead, wherever one looks.
func (v *View) Twilit(sun sky.Angle) (photons float64) {
	mag, colours, ok := TwilightColours(sun)
	if !ok {
		return 0
	}
	for _, p := range v.points {
		photons += colours.photonsPerAngstrom(p.λ) * p.angstrom
	}
	return photons * math.Pow(10, -0.4*mag)
}
