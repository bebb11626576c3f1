// Package light says how bright sky and objects are through a filter, by wavelength: what the air takes, what the
// Moon and the sky itself shed, what a nebula's lines and a galaxy's stars send, and how much a minute of it is
// worth.
//
// Surface brightness is in photons per second, cm² and square second of arc: above the air for an object, below it
// where it says so. The sky's own lines (557.7, 630.0, 636.4 nm, and OH above 620 nm) are smeared over their
// colours: a narrow filter between them sees less than is said here, one upon them more. So are a town's lamps.
// Twilight is as bright everywhere as overhead.
//
// Everything is a pure function of its arguments.
package light

import (
	"math"

	"duskhand/plan/framing"
)

// Wavelength is one of light in air, in nanometres.
type Wavelength float64

// Nanometre is the unit of wavelengths.
const Nanometre Wavelength = 1

// middleOfV is where V magnitudes are taken to be measured.
const middleOfV = 550 * Nanometre

func (λ Wavelength) micrometres() float64 { return float64(λ) / 1000 }

// colourBands are the bands of U, B, V, R and I: where they lie, and the flux of magnitude 0 in jansky.
//
// Source: Bessell 1979, PASP 91, 589, table IV (memory).
var colourBands = [...]struct {
	at     Wavelength
	jansky float64
}{{360, 1810}, {440, 4260}, {middleOfV, 3640}, {640, 3080}, {790, 2550}}

// Colours is the continuum of something that shines: its magnitudes in U, B, V, R and I over that in V.
type Colours [5]float64

// photonsPerAngstrom returns what a source of V = 0 with these colours sends at a wavelength, in photons per second,
// cm² and Å: straight between the bands in the logarithm, and level beyond the first and the last.
func (c Colours) photonsPerAngstrom(λ Wavelength) float64 {
	last := len(colourBands) - 1
	for i := range last {
		a, b := colourBands[i], colourBands[i+1]
		if λ > b.at && i+1 < last {
			continue
		}
		share := math.Max(0, math.Min(1, float64((λ-a.at)/(b.at-a.at))))
		return math.Exp((1-share)*math.Log(c.inBand(i)) + share*math.Log(c.inBand(i+1)))
	}
	return 0
}

// inBand counts photons: a jansky at a shorter wavelength is fewer of them to the hertz, and more hertz to the Å.
func (c Colours) inBand(i int) float64 {
	const v = 2
	perV := func(i int) float64 { return colourBands[i].jansky / float64(colourBands[i].at) }
	return framing.PhotonsAtMag0 * perV(i) / perV(v) * math.Pow(10, -0.4*c[i])
}

// The colours of the sky's own light, and of the Moon's.
//
// Source: Benn & Ellison 1998, La Palma technical note 115, of a dark sky at U 22.0, B 22.7, V 21.9, R 21.0 and
// I 20.0; the Moon's by B − V = 0.92 and V − R about 0.5, the others likely (all by memory).
var (
	skyColours  = Colours{0.1, 0.8, 0, -0.9, -1.9}
	moonColours = Colours{1.38, 0.92, 0, -0.5, -0.95}
)
