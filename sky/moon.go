package sky

import (
	"time"

	"github.com/soniakeys/meeus/v3/moonposition"
)

// moonRadiusKm is the radius that a lunar semidiameter is counted from (IAU 2015 mean radius).
const moonRadiusKm = 1737.4

// Moon is where the Moon's centre stands, seen from the site itself and not from the Earth's centre:
// the two differ by up to a degree.
type Moon struct {
	Horizontal            // airless, topocentric
	Place       OfDate    // topocentric apparent place
	DistanceKm  float64   // from the observer
	Illuminated float64   // share of the disc that is lit, 0 to 1, topocentric
	direction   Direction // east, north, up
}

// SemiDiameter returns the angle from the Moon's centre to its limb.
func (m Moon) SemiDiameter() Angle { return asin(moonRadiusKm / m.DistanceKm) }

// Moon returns the Moon at t.
//
// Error: 18″ at worst, 3″ rms, by the theory's authors.
// Source: Meeus ch. 47, with nutation added, which its library leaves out; parallax by subtracting the
// observer's place (ch. 40 does the same in angles); fraction ch. 48, eq. 48.1 and 48.3.
func (f *Frame) Moon(t time.Time) Moon {
	λ, β, distanceKm := moonposition.Position(julianDateTT(t))
	geocentric := f.equatorial(Angle(λ)+f.nutationLong, Angle(β)).scaled(distanceKm)
	seconds := t.Sub(f.middle).Seconds()
	up := Direction{Y: f.cosLat*f.observer.Z - f.sinLat*f.observer.X, Z: f.sinLat*f.observer.Z + f.cosLat*f.observer.X}
	fromSite := f.topocentric(geocentric, seconds).Plus(-1, up)
	moon := Moon{DistanceKm: fromSite.Length(), direction: fromSite.Unit()}
	moon.Horizontal = moon.direction.Horizontal()
	moon.Place = f.fromTopocentric(moon.direction, seconds).OfDate()
	moon.Illuminated = f.illuminated(moon, t, seconds)
	return moon
}

// illuminated is (1 + cos i)/2, i the angle at the Moon between Sun and observer.
func (f *Frame) illuminated(moon Moon, t time.Time, seconds float64) float64 {
	toSun, sunAU := f.sunOfDate(t)
	sun := f.topocentric(toSun, seconds).scaled(sunAU * astronomicalUnitKm)
	fromMoon := sun.Plus(-moon.DistanceKm, moon.direction).Unit()
	return (1 - fromMoon.Dot(moon.direction)) / 2
}

// Direction returns the Moon's direction, east, north, up.
func (m Moon) Direction() Direction { return m.direction }
