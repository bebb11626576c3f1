package light

import (
	"math"

	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/plan/scan"
	"duskhand/sky"
)

// The sky of a site whose kit does not say how dark it is and how clear its air: those of the paper that the Moon's
// light follows.
const (
	usualZenithMag  = 21.587 // V magnitudes per square second of arc
	usualExtinction = scan.ExtinctionMag
)

// View is the sky of a site through one of its filters.
type View struct {
	Filter kit.Filter
	Band   Band
	Usual  bool // the band's width is a guess: the kit is silent

	air    Air
	points []viewPoint
}

// viewPoint is a stretch of the band: what the air takes there, as the exponent for one airmass; the sky's own light
// at the zenith; and what the Moon's light scattered by molecules and by dust comes to for each nanolambert that it
// would be in V.
type viewPoint struct {
	point
	taken, own      float64
	molecules, dust float64
}

// Through returns the view of a site's sky through a filter. A site that is silent has a dark sky and clear air.
func Through(f kit.Filter, site kit.Site) *View {
	zenith, extinction := site.SkyMagPerArcsec2, site.ExtinctionMagPerAirmass
	if zenith == 0 {
		zenith = usualZenithMag
	}
	if extinction == 0 {
		extinction = usualExtinction
	}
	v := &View{Filter: f, air: NewAir(site.PressureHPa, site.Place.ElevationMetres, extinction)}
	v.Band, v.Usual = BandOf(f)
	perNanolambert := framing.PhotonsAtMag0 * math.Pow(10, -0.4*MagPerArcsec2(1))
	for _, p := range v.Band.points() {
		k := v.air.Extinction(p.λ)
		moon := perNanolambert * moonColours.photonsPerAngstrom(p.λ) / framing.PhotonsAtMag0 * extinction / k * p.angstrom
		v.points = append(v.points, viewPoint{point: p, taken: exponent(k),
			own:       skyColours.photonsPerAngstrom(p.λ) * math.Pow(10, -0.4*zenith) * p.angstrom,
			molecules: moon * rayleighLike(p.λ), dust: moon * dustLike(p.λ)})
	}
	return v
}

// exponent turns magnitudes per airmass into the exponent of what is left.
func exponent(mag float64) float64 { return mag * 0.4 * math.Ln10 }

// rayleighLike is the depth of the molecules over that in V, which does not depend on the site.
func rayleighLike(λ Wavelength) float64 {
	return RayleighDepth(λ, 1, 0) / RayleighDepth(middleOfV, 1, 0)
}

// Moonless returns the sky's own light at an airless altitude, below the air.
//
// Error: some tenths of a magnitude from night to night, and what the package says of lines.
// Source: Krisciunas & Schaefer 1991, PASP 103, 1033, eq. 2, with the extinction of each wavelength.
func (v *View) Moonless(altitude sky.Angle) (photons float64) {
	x := scan.LayerAirmass(altitude)
	for _, p := range v.points {
		photons += p.own * math.Exp(-p.taken*(x-1))
	}
	return photons * x
}

// Lit is the Moon at one instant as a view has it: what is left of its light on its way down, for each part of the
// band.
type Lit struct {
	up      bool
	through []float64
}

// Under makes a view ready for the Moon of an instant; the place in the sky is left open.
func (v *View) Under(m Moonlight) Lit {
	if m.MoonAltitude <= 0 {
		return Lit{}
	}
	lit := Lit{up: true, through: make([]float64, len(v.points))}
	x, sheds := scan.LayerAirmass(m.MoonAltitude), moonIlluminance(m.PhaseAngle)
	for i, p := range v.points {
		lit.through[i] = sheds * math.Exp(-p.taken*x)
	}
	return lit
}

// Moonlit returns what the Moon adds to the sky at an airless altitude, so far from the Moon.
//
// Krisciunas & Schaefer's bracket 1 − 10^(−0.4kX) already holds the extinction of all that scatters. So their two
// phase functions are shared out by τ(λ)/τ(V) of molecules and of dust, and by k(V)/k(λ).
//
// Error:  8 to 23 % in V, and more the farther from it.
// Source: ibid., eq. 15 to 21; by wavelength the project's handbook, section 14 (own derivation).
func (v *View) Moonlit(l Lit, altitude, separation sky.Angle) (photons float64) {
	if !l.up || altitude <= 0 {
		return 0
	}
	molecules, dust := scattering(separation)
	x := scan.LayerAirmass(altitude)
	for i, p := range v.points {
		photons += (molecules*p.molecules + dust*p.dust) * l.through[i] * -math.Expm1(-p.taken*x)
	}
	return photons
}
