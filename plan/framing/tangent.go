package framing

import (
	"math"

	"duskhand/sky"
)

// PlanePoint is a place in a tangent plane, from its centre: angles are tangents, in radians of the plane,
// so that one second of arc at the centre is one second.
type PlanePoint struct{ East, North sky.Angle }

// TangentPlane touches the sky at its centre; places are projected on it from the middle of the sphere,
// which is what a lens without distortion does to them.
//
// Source: Calabretta & Greisen 2002, A&A 395, 1077, section 5.1.3, TAN, with the native pole at the centre.
type TangentPlane struct{ centre, east, north sky.Direction }

// NewTangentPlane returns the plane that touches at centre. At a celestial pole its north is that of the
// centre's right ascension, as everywhere else.
func NewTangentPlane(centre sky.J2000) TangentPlane {
	sinRA, cosRA := math.Sincos(float64(centre.RA))
	sinDec, cosDec := math.Sincos(float64(centre.Dec))
	return TangentPlane{
		centre: centre.Direction(),
		east:   sky.Direction{X: -sinRA, Y: cosRA},
		north:  sky.Direction{X: -sinDec * cosRA, Y: -sinDec * sinRA, Z: cosDec},
	}
}

// Project returns where place falls on the plane; ok is false from 90° from the centre on, where it does
// not fall on it at all.
//
// Error: 1e-15 of the distance from the centre.
func (p TangentPlane) Project(place sky.J2000) (point PlanePoint, ok bool) {
	d := place.Direction()
	depth := d.Dot(p.centre)
	if depth <= 0 {
		return PlanePoint{}, false
	}
	return PlanePoint{sky.Angle(d.Dot(p.east) / depth), sky.Angle(d.Dot(p.north) / depth)}, true
}

// Sky returns the place that falls on a point of the plane.
func (p TangentPlane) Sky(point PlanePoint) sky.J2000 {
	return p.centre.Plus(float64(point.East), p.east).Plus(float64(point.North), p.north).Unit().J2000()
}
