package plan

import (
	"math"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// region is the set of axes that the mount's may be: all within the ellipse around the one as known.
type region struct {
	centre sky.Direction
	known  bool // nothing but the centre
	round  bool // a circle on the sphere
	radius sky.Angle

	at    func(share, around float64) sky.Direction     // share 0 the centre, 1 the rim; around in radians
	polar func(d sky.Direction) (share, around float64) // undoes at, for any direction
}

// circleOf returns the axes within the circle of an axis's uncertainty.
func circleOf(axis kit.Axis) region {
	centre := sky.MountAxis(axis.Tilt, axis.Toward)
	r := region{centre: centre, known: axis.Uncertainty <= 0, round: true, radius: axis.Uncertainty}
	north := sky.Direction{X: 0, Y: 1, Z: 0}
	east := north.Cross(centre).Unit() // any two directions square to the axis will do
	across := centre.Cross(east)
	r.at = func(share, around float64) sky.Direction {
		sin, cos := math.Sincos(around)
		out, up := math.Sincos(share * float64(axis.Uncertainty))
		return sky.Direction{}.Plus(up, centre).Plus(out*cos, east).Plus(out*sin, across)
	}
	r.polar = func(d sky.Direction) (share, around float64) {
		return float64(d.Separation(centre) / axis.Uncertainty), math.Atan2(d.Dot(across), d.Dot(east))
	}
	return r
}

// thinnest is the least semi-axis of an ellipse: one thinner is as good as a line, and has no inside to look in.
const thinnest = sky.Arcsecond

// ellipseOf returns the axes within the ellipse of a spread around an axis: a circle or an ellipse in the plane
// of tilt vectors.
func ellipseOf(s Spread, axis kit.Axis) region {
	r := region{centre: sky.MountAxis(axis.Tilt, axis.Toward), known: s.East == 0 && s.North == 0, radius: s.Radius()}
	east, north := tiltVector(axis)
	a := math.Max(certainty*float64(s.East), float64(thinnest))
	b := math.Max(certainty*float64(s.North), float64(thinnest))
	along := s.Correlation
	across := math.Sqrt(math.Max(1e-6, 1-along*along)) // with along the Cholesky factor of the covariance
	r.at = func(share, around float64) sky.Direction {
		sin, cos := math.Sincos(around)
		return leaning(east+share*a*cos, north+share*b*(along*cos+across*sin))
	}
	r.polar = func(d sky.Direction) (share, around float64) {
		tilt, toward := tiltOf(d)
		sin, cos := math.Sincos(float64(toward))
		u := (float64(tilt)*sin - east) / a
		v := ((float64(tilt)*cos-north)/b - along*u) / across
		return math.Hypot(u, v), math.Atan2(v, u)
	}
	return r
}

// leaning returns the axis of a tilt vector, in radians.
func leaning(east, north float64) sky.Direction {
	tilt := math.Hypot(east, north)
	if tilt == 0 {
		return sky.Direction{Z: 1}
	}
	sin, cos := math.Sincos(tilt)
	return sky.Direction{X: sin * east / tilt, Y: sin * north / tilt, Z: cos}
}

// holds tells whether a direction is one of the axes.
func (r region) holds(d sky.Direction) bool {
	if r.known {
		return false
	}
	share, _ := r.polar(d)
	return share < 1
}

// passed is where a direction lies among the axes, or where the one opposite to it does: over either the field turns
// round at once.
func (r region) passed(d sky.Direction) (share, around float64) {
	if d.Dot(r.centre) < 0 {
		d = sky.Direction{}.Plus(-1, d)
	}
	return r.polar(d)
}

// alone returns the region of nothing but the centre.
func (r region) alone() region { return region{centre: r.centre, known: true} }

// nearest returns the least angle between a direction and any of the axes, farthest the greatest.
func (r region) nearest(d sky.Direction) sky.Angle {
	if r.known {
		return d.Separation(r.centre)
	}
	if r.round {
		return max(0, d.Separation(r.centre)-r.radius)
	}
	if r.holds(d) {
		return 0
	}
	least, _ := greatest(func(around float64) float64 { return -float64(d.Separation(r.at(1, around))) }, r.sharpAt(d))
	return sky.Angle(-least)
}

func (r region) farthest(d sky.Direction) sky.Angle {
	if r.known {
		return d.Separation(r.centre)
	}
	if r.round {
		return d.Separation(r.centre) + r.radius
	}
	most, _ := greatest(func(around float64) float64 { return float64(d.Separation(r.at(1, around))) }, sharp{})
	return sky.Angle(most)
}

// sharp is where around the rim something may change fast, and over how many radians; none if width is 0.
type sharp struct{ around, width float64 }

// sharpAt returns where around the rim the angles at d change fast: opposite to it, when it is near.
func (r region) sharpAt(d sky.Direction) sharp {
	share, around := r.passed(d)
	if share > 2 {
		return sharp{}
	}
	return sharp{around, math.Max(math.Abs(share-1), 1e-5)}
}

// tiltVector returns the parts of an axis's tilt towards east and north, in radians.
func tiltVector(axis kit.Axis) (east, north float64) {
	sin, cos := math.Sincos(float64(axis.Toward))
	return float64(axis.Tilt) * sin, float64(axis.Tilt) * cos
}
