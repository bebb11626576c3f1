package sky

import "math"

// Direction is a unit vector. Which frame it is in, its maker says: J2000.Direction, OfDate.Direction
// and Horizontal.Direction each give one in their own frame, and only a Frame carries one into another.
// Horizontal directions have X east, Y north, Z up; equatorial ones X at the equinox, Z at the pole.
type Direction struct{ X, Y, Z float64 }

// J2000 is a place in the International Celestial Reference Frame, which agrees with the mean equator
// and equinox of J2000.0 to 0.02″. RA [0°, 360°), Dec [−90°, 90°].
type J2000 struct{ RA, Dec Angle }

// OfDate is an apparent place: true equator and equinox of date, with annual aberration, as seen from
// the Earth's centre unless its maker says topocentric. RA [0°, 360°), Dec [−90°, 90°].
type OfDate struct{ RA, Dec Angle }

// Horizontal is a place in the sky of a site. Altitude [−90°, 90°], up +; Azimuth [0°, 360°) from
// north through east, also south of the equator. Airless unless its maker says apparent.
type Horizontal struct{ Altitude, Azimuth Angle }

// Direction returns the unit vector of p, in the ICRF.
func (p J2000) Direction() Direction { return fromSpherical(p.RA, p.Dec) }

// Direction returns the unit vector of p, in the true equator and equinox of date.
func (p OfDate) Direction() Direction { return fromSpherical(p.RA, p.Dec) }

// Direction returns the unit vector of p, X east, Y north, Z up.
func (p Horizontal) Direction() Direction {
	sinAz, cosAz := math.Sincos(float64(p.Azimuth))
	sinAlt, cosAlt := math.Sincos(float64(p.Altitude))
	return Direction{cosAlt * sinAz, cosAlt * cosAz, sinAlt}
}

// Horizontal reads d as an east-north-up direction.
func (d Direction) Horizontal() Horizontal {
	return Horizontal{
		Altitude: d.Altitude(),
		Azimuth:  Angle(math.Atan2(d.X, d.Y)).Wrapped(),
	}
}

// Altitude is that of Horizontal, [−90°, 90°], without the price of the azimuth.
func (d Direction) Altitude() Angle { return Angle(math.Atan2(d.Z, math.Sqrt(d.X*d.X+d.Y*d.Y))) }

// J2000 reads d as a direction in the ICRF.
func (d Direction) J2000() J2000 {
	ra, dec := d.spherical()
	return J2000{ra, dec}
}

// OfDate reads d as a direction in the true equator and equinox of date.
func (d Direction) OfDate() OfDate {
	ra, dec := d.spherical()
	return OfDate{ra, dec}
}

func fromSpherical(long, lat Angle) Direction {
	sinLong, cosLong := math.Sincos(float64(long))
	sinLat, cosLat := math.Sincos(float64(lat))
	return Direction{cosLat * cosLong, cosLat * sinLong, sinLat}
}

func (d Direction) spherical() (long, lat Angle) {
	return Angle(math.Atan2(d.Y, d.X)).Wrapped(), Angle(math.Atan2(d.Z, math.Hypot(d.X, d.Y)))
}

// Dot returns the cosine of the angle between d and e.
func (d Direction) Dot(e Direction) float64 { return d.X*e.X + d.Y*e.Y + d.Z*e.Z }

// Cross returns d × e, of length sin of the angle between them.
func (d Direction) Cross(e Direction) Direction {
	return Direction{d.Y*e.Z - d.Z*e.Y, d.Z*e.X - d.X*e.Z, d.X*e.Y - d.Y*e.X}
}

// Plus returns d + k·e, not normalised.
func (d Direction) Plus(k float64, e Direction) Direction {
	return Direction{d.X + k*e.X, d.Y + k*e.Y, d.Z + k*e.Z}
}

// Length returns the length of d, 1 for a direction.
func (d Direction) Length() float64 { return math.Sqrt(d.Dot(d)) }

// Unit returns d scaled to length 1.
func (d Direction) Unit() Direction {
	k := 1 / d.Length()
	return Direction{k * d.X, k * d.Y, k * d.Z}
}

// Separation returns the angle between d and e, [0°, 180°], exact for small and large ones alike.
func (d Direction) Separation(e Direction) Angle {
	return Angle(math.Atan2(d.Cross(e).Length(), d.Dot(e)))
}
