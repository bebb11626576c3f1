package sky

import (
	"math"
	"time"
)

// PositionAngleSinceJ2000 returns by how much position angles at place have grown from J2000 to t, because
// the pole has moved: subtract it from a position angle of date to get the one of J2000.
//
// It is a few hundredths of a degree near the equator and grows with 1/cos δ: 0.4° at δ = −69° in 2026,
// which is 27 pixels at the corner of a large chip. Through one night it stands still.
// Range: (−180°, 180°]. ok is false within a tenth of a degree of the pole, where position angles of the
// two epochs have little to do with each other.
// Error: 0.001° to δ = ±87°, against the table of plan/framing's tests.
func (f *Frame) PositionAngleSinceJ2000(place J2000, t time.Time) (turn Angle, ok bool) {
	const step = 10 * Arcsecond // along J2000's meridian: short enough that it is straight
	if (90*Degree - place.Dec.Abs()) < 0.1*Degree {
		return 0, false
	}
	at := func(p J2000) Direction { return f.Apparent(f.Fix(Star{Place: p}), t).Direction() }
	here, north := at(place), at(J2000{RA: place.RA, Dec: place.Dec + step})
	pole := Direction{Z: 1}
	east := pole.Cross(here)
	return Angle(math.Atan2(north.Dot(east), north.Dot(here.Cross(east)))), true
}

// PositionAngleOfJ2000 returns a position angle of date as one in J2000, [0°, 360°). Near a pole, where
// there is no sense in the difference, it returns the angle of date.
func (f *Frame) PositionAngleOfJ2000(place J2000, t time.Time, ofDate Angle) Angle {
	turn, _ := f.PositionAngleSinceJ2000(place, t)
	return (ofDate - turn).Wrapped()
}

// PositionAngleOfDate undoes PositionAngleOfJ2000.
func (f *Frame) PositionAngleOfDate(place J2000, t time.Time, ofJ2000 Angle) Angle {
	turn, _ := f.PositionAngleSinceJ2000(place, t)
	return (ofJ2000 + turn).Wrapped()
}
