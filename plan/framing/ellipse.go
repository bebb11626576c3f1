package framing

import (
	"math"

	"duskhand/plan"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// Ellipse is an object's outline: its two axes, whole lengths, and the position angle of the major one.
type Ellipse struct{ Major, Minor, PositionAngle sky.Angle }

// OutlineOf returns the outline of a catalogue object; ok is false when its size is not known. Without a
// minor axis or a position angle it is round, with the major axis as its diameter: the larger of what it
// may be.
func OutlineOf(o catalog.Object) (e Ellipse, ok bool) {
	if !o.MajorArcmin.OK || o.MajorArcmin.Value <= 0 {
		return Ellipse{}, false
	}
	major := sky.Angle(o.MajorArcmin.Value) * sky.Arcminute
	e = Ellipse{Major: major, Minor: major}
	if o.MinorArcmin.OK && o.MinorArcmin.Value > 0 && o.PositionAngleDeg.OK {
		e.Minor = sky.Angle(o.MinorArcmin.Value) * sky.Arcminute
		e.PositionAngle = sky.Angle(o.PositionAngleDeg.Value) * sky.Degree
	}
	return e, true
}

// ShareWithin returns which share of the ellipse's area lies within a convex outline, whose corners run
// anticlockwise in the axes of a frame at a camera angle; from is the ellipse's middle, from the frame's.
//
// The plane is squeezed until the ellipse is the unit circle, which keeps shares; there the area is a sum of
// triangles and sectors over the edges.
func (e Ellipse) ShareWithin(outline []plan.FieldPoint, cameraAngle sky.Angle, from PlanePoint) float64 {
	if e.Major <= 0 || e.Minor <= 0 || len(outline) < 3 {
		return 0
	}
	sinCamera, cosCamera := math.Sincos(float64(cameraAngle))
	sinMajor, cosMajor := math.Sincos(float64(e.PositionAngle))
	squeezed := func(p plan.FieldPoint) (x, y float64) {
		right, up := float64(p.Right), float64(p.Up)
		east := up*sinCamera - right*cosCamera - float64(from.East)
		north := up*cosCamera + right*sinCamera - float64(from.North)
		along, across := east*sinMajor+north*cosMajor, north*sinMajor-east*cosMajor
		return 2 * across / float64(e.Minor), 2 * along / float64(e.Major)
	}
	area := 0.0
	x0, y0 := squeezed(outline[len(outline)-1])
	for _, corner := range outline {
		x1, y1 := squeezed(corner)
		area += fromCircle(x0, y0, x1, y1)
		x0, y0 = x1, y1
	}
	return math.Max(0, math.Min(1, math.Abs(area)/math.Pi))
}

// fromCircle returns the signed area of the part of the unit circle inside the triangle of its centre and an
// edge.
func fromCircle(x0, y0, x1, y1 float64) float64 {
	dx, dy := x1-x0, y1-y0
	length2 := dx*dx + dy*dy
	if length2 == 0 {
		return 0
	}
	sector := func(ax, ay, bx, by float64) float64 { return math.Atan2(ax*by-ay*bx, ax*bx+ay*by) / 2 }
	middle := -(x0*dx + y0*dy) / length2 // along the edge, where it is nearest to the centre
	half2 := (1-(x0*x0+y0*y0))/length2 + middle*middle
	if half2 <= 0 {
		return sector(x0, y0, x1, y1)
	}
	// The ends are taken as they are: at the centre what rounding leaves of one has any direction.
	at := func(share float64) (x, y float64) {
		switch {
		case share <= 0:
			return x0, y0
		case share >= 1:
			return x1, y1
		}
		return x0 + share*dx, y0 + share*dy
	}
	half := math.Sqrt(half2)
	ax, ay := at(middle - half)
	bx, by := at(middle + half)
	return sector(x0, y0, ax, ay) + (ax*by-ay*bx)/2 + sector(bx, by, x1, y1)
}
