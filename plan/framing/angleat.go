package framing

import (
	"math"

	"duskhand/sky"
)

// CameraAngleAt returns the position angle of the chip's up at a place of the picture, J2000, [0°, 360°): near a
// pole it differs from that at the middle, as the meridians run together. 13″ of right ascension make 0.009° at a
// declination of −69°.
func (c Chip) CameraAngleAt(place sky.J2000) sky.Angle {
	// Along a column of the picture the sky's direction changes by up, less its part along the line of sight.
	plane := NewTangentPlane(place)
	return sky.Angle(math.Atan2(c.up.Dot(plane.east), c.up.Dot(plane.north))).Wrapped()
}
