package sky

import (
	"math"
	"time"
)

// Direction returns where target stands at t.
//
// Frame: east, north, up; airless; topocentric, diurnal aberration included.
// Error: 0.05″ against testdata/reference/places.csv.
func (f *Frame) Direction(target Fixed, t time.Time) Direction {
	seconds := t.Sub(f.middle).Seconds()
	d := f.topocentric(f.apparent(target, seconds), seconds)
	d.X += f.diurnal // the observer's own motion is due east
	return d.Unit()
}

// Horizontal is Direction as altitude and azimuth, airless.
func (f *Frame) Horizontal(target Fixed, t time.Time) Horizontal {
	return f.Direction(target, t).Horizontal()
}

// Apparent returns the geocentric apparent place of target at t.
//
// Frame: true equator and equinox of date; annual aberration and light deflection, no diurnal aberration.
func (f *Frame) Apparent(target Fixed, t time.Time) OfDate {
	return f.apparent(target, t.Sub(f.middle).Seconds()).OfDate()
}

// apparent is the geocentric direction of date, of length 1 + 1e-4 at most.
func (f *Frame) apparent(target Fixed, seconds float64) Direction {
	d := target.direction
	d.X += f.velocity.X + seconds*f.velocityPerSecond.X
	d.Y += f.velocity.Y + seconds*f.velocityPerSecond.Y
	d.Z += f.velocity.Z + seconds*f.velocityPerSecond.Z
	m, r := &f.toDate, &f.toDatePerSecond
	return Direction{
		(m[0][0]+seconds*r[0][0])*d.X + (m[0][1]+seconds*r[0][1])*d.Y + (m[0][2]+seconds*r[0][2])*d.Z,
		(m[1][0]+seconds*r[1][0])*d.X + (m[1][1]+seconds*r[1][1])*d.Y + (m[1][2]+seconds*r[1][2])*d.Z,
		(m[2][0]+seconds*r[2][0])*d.X + (m[2][1]+seconds*r[2][1])*d.Y + (m[2][2]+seconds*r[2][2])*d.Z,
	}
}

// topocentric turns a vector of date into east, north, up (Meeus eq. 13.5 and 13.6 as rotations).
func (f *Frame) topocentric(d Direction, seconds float64) Direction {
	sinST, cosST := math.Sincos(f.sidereal + seconds*f.siderealPerSecond)
	meridian := cosST*d.X + sinST*d.Y
	east := cosST*d.Y - sinST*d.X
	return Direction{
		X: east,
		Y: f.cosLat*d.Z - f.sinLat*meridian,
		Z: f.sinLat*d.Z + f.cosLat*meridian,
	}
}

// SiderealTime returns the local apparent sidereal time at t, [0°, 360°).
func (f *Frame) SiderealTime(t time.Time) Angle {
	return Angle(f.sidereal + t.Sub(f.middle).Seconds()*f.siderealPerSecond).Wrapped()
}

// HourAngle returns local apparent sidereal time minus the right ascension of date, west +,
// (−180°, 180°].
func (f *Frame) HourAngle(place OfDate, t time.Time) Angle {
	return (f.SiderealTime(t) - place.RA).Signed()
}

// Pole returns the direction of the north celestial pole of date: azimuth 0, altitude the latitude,
// so below the horizon at southern sites. East, north, up.
func (f *Frame) Pole() Direction { return Direction{0, f.cosLat, f.sinLat} }

// fromTopocentric undoes topocentric.
func (f *Frame) fromTopocentric(d Direction, seconds float64) Direction {
	sinST, cosST := math.Sincos(f.sidereal + seconds*f.siderealPerSecond)
	meridian := f.cosLat*d.Z - f.sinLat*d.Y
	return Direction{
		X: cosST*meridian - sinST*d.X,
		Y: sinST*meridian + cosST*d.X,
		Z: f.sinLat*d.Z + f.cosLat*d.Y,
	}
}

// HorizontalOf returns the airless altitude and azimuth of a place of date, as it stands: without the
// diurnal aberration and parallax that Horizontal and Moon apply.
func (f *Frame) HorizontalOf(place OfDate, t time.Time) Horizontal {
	return f.topocentric(place.Direction(), t.Sub(f.middle).Seconds()).Horizontal()
}
