package framing

import (
	"math"
	"time"

	"duskhand/sky"
)

// SinceJ2000 returns by how much position angles at place have grown from J2000 to t, because the pole has
// moved: subtract it from a camera angle of date, as the plan gives it, to get the one of this package.
//
// It is a few hundredths of a degree near the equator and grows with 1/cos δ: 0.4° at δ = −69° in 2026,
// which is 27 pixels at the corner of a large chip. Through one night it stands still.
// Range: (−180°, 180°]. ok is false within a tenth of a degree of the pole, where position angles of the
// two epochs have little to do with each other.
// Error: 0.001° against testdata/equinox.csv to δ = ±87°.
func SinceJ2000(frame *sky.Frame, place sky.J2000, t time.Time) (turn sky.Angle, ok bool) {
	const step = 10 * sky.Arcsecond // along J2000's meridian: short enough that it is straight
	if (90*sky.Degree - place.Dec.Abs()) < 0.1*sky.Degree {
		return 0, false
	}
	at := func(p sky.J2000) sky.Direction {
		return frame.Apparent(frame.Fix(sky.Star{Place: p}), t).Direction()
	}
	here, north := at(place), at(sky.J2000{RA: place.RA, Dec: place.Dec + step})
	pole := sky.Direction{Z: 1}
	east := pole.Cross(here)
	return sky.Angle(math.Atan2(north.Dot(east), north.Dot(here.Cross(east)))), true
}

// OfJ2000 returns a camera angle of date as a position angle in J2000, [0°, 360°). Near a pole, where there
// is no sense in the difference, it returns the angle of date.
func OfJ2000(frame *sky.Frame, place sky.J2000, t time.Time, ofDate sky.Angle) sky.Angle {
	turn, _ := SinceJ2000(frame, place, t)
	return (ofDate - turn).Wrapped()
}

// OfDate undoes OfJ2000: the camera angle of date that a wanted one of J2000 is, [0°, 360°).
func OfDate(frame *sky.Frame, place sky.J2000, t time.Time, j2000 sky.Angle) sky.Angle {
	turn, _ := SinceJ2000(frame, place, t)
	return (j2000 + turn).Wrapped()
}
