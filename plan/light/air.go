package light

import "math"

// Air is what the air over a site takes from light, by wavelength: its molecules scatter, dust and haze scatter,
// and ozone absorbs.
type Air struct {
	pressureHPa, elevationKM float64
	molecules, ozone         float64 // by which each is counted: 1, but for an air clearer than molecules alone
	dust                     float64 // magnitudes per airmass at 550 nm
}

// The dust thins out towards the red by this power of the wavelength.
// Source: Patat et al. 2011, A&A 527, A91.
const dustPower = -1.38

// magPerDepth turns an optical depth into magnitudes.
const magPerDepth = 1.0857

// NewAir returns the air of a site: pressure as measured there, height above the sea, and what it takes in V, in
// magnitudes per airmass. What molecules and ozone leave of that is dust; an air said to be clearer than they are
// has less of both.
//
// Source: the project's handbook, section 14.
func NewAir(pressureHPa, elevationMetres, extinctionV float64) Air {
	a := Air{pressureHPa: pressureHPa, elevationKM: elevationMetres / 1000, molecules: 1, ozone: 1}
	clean := a.Extinction(middleOfV)
	if clean > extinctionV {
		a.molecules, a.ozone = extinctionV/clean, extinctionV/clean
		return a
	}
	a.dust = extinctionV - clean
	return a
}

// RayleighDepth returns the optical depth of the air's molecules at the zenith.
//
// Error:  0.004 magnitudes against Hayes & Latham 1975 from 400 to 700 nm at sea level.
// Source: Noll et al. 2012, A&A 543, A92, eq. 3.
func RayleighDepth(λ Wavelength, pressureHPa, elevationMetres float64) float64 {
	μm := λ.micrometres()
	power := 3.916 + 0.074*μm + 0.050/μm
	return pressureHPa / 1013.25 * (0.00864 + 6.5e-6*elevationMetres/1000) * math.Pow(μm, -power)
}

// Extinction returns what the air takes, in magnitudes per airmass.
func (a Air) Extinction(λ Wavelength) float64 {
	return a.molecules*magPerDepth*RayleighDepth(λ, a.pressureHPa, a.elevationKM*1000) + a.ozone*ozoneMag(λ) + a.dust*dustLike(λ)
}

func dustLike(λ Wavelength) float64 { return math.Pow(float64(λ/middleOfV), dustPower) }

// ozoneMag is what the ozone's broad band about 600 nm takes, in magnitudes per airmass: a bell that fades out at 400
// and 750 nm.
// Source: 0.02 to 0.03 at its top, 0 at those ends (memory).
func ozoneMag(λ Wavelength) float64 {
	const top, middle, width = 0.025, 595, 60
	x := float64(λ-middle) / width
	return top * math.Exp(-x*x)
}
