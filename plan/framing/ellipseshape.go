package framing

import (
	"math"

	"duskhand/sky"
)

// Box returns the width and height of the rectangle that holds the ellipse, along the axes of a frame at a
// camera angle.
func (e Ellipse) Box(cameraAngle sky.Angle) (width, height sky.Angle) {
	sin, cos := math.Sincos(float64(e.PositionAngle - cameraAngle))
	major, minor := float64(e.Major), float64(e.Minor)
	return sky.Angle(math.Hypot(major*sin, minor*cos)), sky.Angle(math.Hypot(major*cos, minor*sin))
}

// Places returns so many places along the ellipse about a middle, from the end of the major axis at its
// position angle on, through east.
func (e Ellipse) Places(middle sky.J2000, n int) []sky.J2000 {
	plane := NewTangentPlane(middle)
	sinPA, cosPA := math.Sincos(float64(e.PositionAngle))
	places := make([]sky.J2000, n)
	for i := range places {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		along, across := float64(e.Major)/2*cos, float64(e.Minor)/2*sin
		places[i] = plane.Sky(PlanePoint{
			East:  sky.Angle(along*sinPA + across*cosPA),
			North: sky.Angle(along*cosPA - across*sinPA),
		})
	}
	return places
}
