package sky

import (
	"math"
	"time"
)

// ttMinusUTC is TT − UTC: 32.184 s by definition of TT, and 37 leap seconds since 2017-01-01, none
// announced after (IERS Bulletin C). The one place where it is written.
const ttMinusUTC = 69184 * time.Millisecond

// epochJ2000 is 2000-01-01 12:00 on whichever scale the caller counts in, Julian date 2451545.0.
var epochJ2000 = time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC)

const (
	julianDateJ2000  = 2451545.0
	daysPerCentury   = 36525.0
	secondsPerDay    = 86400.0
	daysPerJulianYr  = 365.25
	lightKmPerSecond = 299792.458 // exact, by definition of the metre
)

// daysUTC returns the days of 86 400 s from J2000.0 to t, both read as UTC. A Duration holds 292
// years; times further from 2000 than that saturate there, far outside the theories' range too.
func daysUTC(t time.Time) float64 { return t.Sub(epochJ2000).Seconds() / secondsPerDay }

// daysTT returns the days from J2000.0 to t in Terrestrial Time.
func daysTT(t time.Time) float64 { return daysUTC(t) + ttMinusUTC.Seconds()/secondsPerDay }

// julianDateTT returns t as a Julian date in TT, the JDE of Meeus.
func julianDateTT(t time.Time) float64 { return julianDateJ2000 + daysTT(t) }

// centuriesTT returns the Julian centuries from J2000.0 to t in TT, the T of Meeus.
func centuriesTT(t time.Time) float64 { return daysTT(t) / daysPerCentury }

// earthRotationAngle returns the angle between the terrestrial and the celestial intermediate origin,
// unnormalised by whole turns of the day number, for days of UT1 from J2000.0.
// Source: IERS Conventions (2010), eq. 5.15.
func earthRotationAngle(daysUT1 float64) Angle {
	_, fraction := math.Modf(daysUT1)
	turns := fraction + 0.7790572732640 + 0.00273781191135448*daysUT1
	return Angle(2 * math.Pi * turns)
}
