package light

import (
	"math"

	"duskhand/sky"
)

// Seen is an object through a view: its light above the air, for each part of the band and each line in it.
type Seen struct {
	continuum []float64
	lines     []lineSeen
	view      *View
}

type lineSeen struct{ taken, photons float64 }

// rayleighPhotons is a rayleigh in photons per second, cm² and square second of arc.
// Source: 10⁶/4π photons per second, cm² and steradian (Hunten, Roach & Chamberlain 1956).
const rayleighPhotons = 1.8704e-6

// Of returns an object as the view has it.
func (v *View) Of(s Source) Seen {
	seen := Seen{view: v}
	if s.Continuum {
		bright := math.Pow(10, -0.4*s.SurfaceMag)
		for _, p := range v.points {
			seen.continuum = append(seen.continuum, s.Colours.photonsPerAngstrom(p.λ)*bright*p.angstrom)
		}
	}
	for _, line := range s.Lines {
		if v.Band.has(line.At) {
			seen.lines = append(seen.lines, lineSeen{exponent(v.air.Extinction(line.At)), line.Rayleighs * rayleighPhotons})
		}
	}
	return seen
}

// At returns the object's light below the air at an airless altitude; none below the horizon.
func (s Seen) At(altitude sky.Angle) (photons float64) {
	x, ok := sky.Airmass(altitude)
	if !ok {
		return 0
	}
	for i, c := range s.continuum {
		photons += c * math.Exp(-s.view.points[i].taken*x)
	}
	for _, line := range s.lines {
		photons += line.photons * math.Exp(-line.taken*x)
	}
	return photons
}
