package framing

import (
	"time"

	"duskhand/sky"
)

// OfJ2000 returns a camera angle of date, as the plan gives it, as the one of this package.
func OfJ2000(frame *sky.Frame, place sky.J2000, t time.Time, ofDate sky.Angle) sky.Angle {
	return frame.PositionAngleOfJ2000(place, t, ofDate)
}

// OfDate undoes OfJ2000.
func OfDate(frame *sky.Frame, place sky.J2000, t time.Time, j2000 sky.Angle) sky.Angle {
	return frame.PositionAngleOfDate(place, t, j2000)
}

// SinceJ2000 returns by how much the two differ; ok is false near a pole, where there is no sense in it.
func SinceJ2000(frame *sky.Frame, place sky.J2000, t time.Time) (turn sky.Angle, ok bool) {
	return frame.PositionAngleSinceJ2000(place, t)
}
