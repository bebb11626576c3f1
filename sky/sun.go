package sky

import "time"

// astronomicalUnitKm is exact, IAU 2012 resolution B2.
const astronomicalUnitKm = 149597870.7

// sunOfDate returns the Sun's geocentric apparent direction, true equator and equinox of date, and its
// distance in astronomical units. Source: Meeus ch. 25, higher accuracy: eq. 25.9 and 25.11.
func (e *earth) sunOfDate(t time.Time) (Direction, float64) {
	τ := centuriesTT(t) / 10
	R := earthDistance(τ)
	fk5 := -0.09033 * Arcsecond
	aberration := Angle(-20.4898/R) * Arcsecond // 25.11
	λ := earthLongitude(τ) + 180*Degree + fk5 + e.nutationLong + aberration
	β := -earthLatitude(τ)
	return e.equatorial(λ, β), R
}

// equatorial turns an ecliptic longitude and latitude of date into a direction in the true equator
// and equinox of date (Meeus eq. 13.3 and 13.4).
func (e *earth) equatorial(λ, β Angle) Direction {
	toEquator := aboutX(-e.obliquity)
	return toEquator.apply(fromSpherical(λ, β))
}

// Sun returns where the Sun's centre stands at t, airless and geocentric: parallax would lower it by 9″
// at the most, and twilight is defined without.
//
// Error: 2″ between 2000 and 2050, against ERFA's epv00.
func (f *Frame) Sun(t time.Time) Horizontal {
	d, _ := f.sunOfDate(t)
	return f.topocentric(d, t.Sub(f.middle).Seconds()).Horizontal()
}

// SunPlace returns the Sun's geocentric apparent place.
func (f *Frame) SunPlace(t time.Time) OfDate {
	d, _ := f.sunOfDate(t)
	return d.OfDate()
}
