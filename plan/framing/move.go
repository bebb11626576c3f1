package framing

import (
	"math"

	"duskhand/sky"
)

// Move returns how to move the axes of a mount so that it looks at another place: from and to are where the two truly
// stand at the instant (east, north, up), and axis is its azimuth axis in the same frame.
//
// ok is false within a second of arc of the axis, where the azimuth is anything.
// Valid:  as Mount.Nudge; unlike that, it needs not know how the chip is turned.
// Error:  rounding.
func Move(axis, from, to sky.Direction) (n Nudge, ok bool) {
	if along := math.Max(math.Abs(from.Dot(axis)), math.Abs(to.Dot(axis))); along > sky.Arcsecond.Cos() {
		return Nudge{}, false
	}
	before, after := sky.Angle(math.Asin(from.Dot(axis))), sky.Angle(math.Asin(to.Dot(axis)))
	n.Altitude = after - before
	// Seen against the axis, from north through east, azimuths grow clockwise.
	square := from.Plus(-from.Dot(axis), axis)
	n.Azimuth = sky.Angle(math.Atan2(-axis.Dot(square.Cross(to)), square.Dot(to)))
	middle := (before + after) / 2
	n.AzimuthOnSky, n.CameraAngle = n.Azimuth*sky.Angle(middle.Cos()), n.Azimuth*sky.Angle(middle.Sin())
	return n, true
}
