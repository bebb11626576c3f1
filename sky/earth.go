package sky

import (
	"math"
	"time"

	"github.com/soniakeys/meeus/v3/apparent"
	"github.com/soniakeys/meeus/v3/base"
	"github.com/soniakeys/meeus/v3/nutation"
	"github.com/soniakeys/unit"
)

// orientation is how the Earth stands and moves at one instant.
type orientation struct {
	toDate       matrix    // ICRF to true equator and equinox of date
	velocity     Direction // of the Earth about the barycentre, ICRF, in units of light
	siderealTime Angle     // apparent, at Greenwich; unnormalised, growing
	nutationLong Angle     // Δψ
	obliquity    Angle     // true, ε
}

// orient computes the orientation at t.
//
// Precession is that of IAU 2006 with frame bias, in Fukushima–Williams angles, because the theory in
// Meeus ch. 21 (Lieske 1977) has drifted 0.08″ from the sky by now; nutation is Meeus ch. 22 (IAU 1980),
// within 0.02″ of IAU 2000A since the offsets it is known for are the precession's.
func orient(t time.Time, dut1 time.Duration) orientation {
	century := centuriesTT(t)
	gamma, phi, psi, meanObliquity := fukushimaWilliams(century)
	Δψ, Δε := nutation.Nutation(julianDateTT(t))
	ε := meanObliquity + Angle(Δε)
	toDate := aboutX(-ε).times(aboutZ(-(psi + Angle(Δψ)))).times(aboutX(phi)).times(aboutZ(gamma))
	return orientation{
		toDate:       toDate,
		velocity:     earthVelocity(julianDateTT(t)),
		siderealTime: greenwichApparentSiderealTime(t, dut1, century, Angle(Δψ), ε),
		nutationLong: Angle(Δψ),
		obliquity:    ε,
	}
}

// fukushimaWilliams returns the four angles of IAU 2006 precession with the bias of the ICRF, and the
// mean obliquity of date. Source: Hilton et al. 2006, Celest. Mech. 94, 351, eq. 55 (with the bias of
// IERS Conventions 2010, 5.6.4).
func fukushimaWilliams(T float64) (gamma, phi, psi, obliquity Angle) {
	arcseconds := func(c ...float64) Angle { return Angle(base.Horner(T, c...)) * Arcsecond }
	gamma = arcseconds(-0.052928, 10.556378, 0.4932044, -0.00031238, -0.000002788)
	phi = arcseconds(84381.412819, -46.811016, 0.0511268, 0.00053289, -0.000000440)
	psi = arcseconds(-0.041775, 5038.481484, 1.5584175, -0.00018522, -0.000026452)
	obliquity = arcseconds(84381.406, -46.836769, -0.0001831, 0.00200340, -0.000000576)
	return
}

// greenwichApparentSiderealTime is the Earth rotation angle plus the precession of the equinox since
// J2000 (IERS Conventions 2010, eq. 5.32) plus the equation of the equinoxes, Δψ cos ε with the one
// complementary term that reaches a millarcsecond.
func greenwichApparentSiderealTime(t time.Time, dut1 time.Duration, T float64, Δψ, ε Angle) Angle {
	era := earthRotationAngle(daysUTC(t.Add(dut1)))
	equinox := Angle(base.Horner(T, 0.014506, 4612.156534, 1.3915817, -0.00000044)) * Arcsecond
	node := Angle(base.Horner(T, 125.04452, -1934.136261)) * Degree // Meeus ch. 22, Ω
	complementary := Angle(0.00264*node.Sin()) * Arcsecond
	return era + equinox + Angle(float64(Δψ)*ε.Cos()) + complementary
}

// earthVelocity returns the Earth's barycentric velocity in units of the speed of light, in axes of
// J2000, to 0.001″ of aberration.
//
// The library gives the aberration of a star (Meeus ch. 23, Ron & Vondrák), not the velocity behind it.
// On the equator at right ascension 0h and 6h the formula 23.4 reduces to the velocity's components.
func earthVelocity(jde float64) Direction {
	y, z := apparent.AberrationRonVondrak(0, 0, jde)
	minusX, _ := apparent.AberrationRonVondrak(unit.RA(math.Pi/2), 0, jde)
	return Direction{-float64(minusX), float64(y), float64(z)}
}
