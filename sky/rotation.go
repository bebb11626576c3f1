package sky

import "math"

// nearestToPole is how near the target may come to the pole or to the axis before the field angle
// stops existing for us.
const nearestToPole = 1 * Arcsecond

// FieldAngle returns χ, the angle at the target from the direction of the celestial pole to that of the
// mount's azimuth axis.
//
// Frame:  any one frame for all three, at one instant; directions are airless.
// Epoch:  the pole of date. Other arguments in that epoch too.
// Sign:   positive through east. Levelled, it is the parallactic angle, and its sign is that of the hour
// angle at every latitude.
// Range:  (−180°, 180°]. It jumps where the axis lies due south of the target; Path follows it.
// Valid:  ok is false within 1″ of either pole or end of the axis, where the angle does not exist.
// Error:  0.05″ · (1/sin distance to the pole + 1/sin distance to the axis), see testdata/reference.
// Source: Meeus, Astronomical Algorithms, 2nd ed., ch. 14, eq. 14.1 (levelled); vectors otherwise.
func FieldAngle(pole, target, axis Direction) (chi Angle, ok bool) {
	if target.Cross(axis).Length() < float64(nearestToPole) {
		return 0, false
	}
	east := pole.Cross(target) // of the length of sin(distance to the pole), which atan2 does not mind
	if east.Length() < float64(nearestToPole) {
		return 0, false
	}
	return fieldAngle(east, target, axis), true
}

func fieldAngle(east, target, axis Direction) Angle {
	north := target.Cross(east)
	chi := math.Atan2(axis.Dot(east), axis.Dot(north))
	if chi == -math.Pi {
		return Angle(math.Pi)
	}
	return Angle(chi)
}

// FieldRate returns dχ/dt, the rate at which the field turns for a mount with that azimuth axis.
//
// Arguments as in FieldAngle. Sign: positive through east; it passes zero and changes sign where the
// target crosses azimuth 90° or 270° about the axis.
// Valid: ok is false within 1″ of either end of the axis, where the rate has no bound.
// Error: 0.02 %: the drift of the apparent place, which is left out.
// Source: the derivative of FieldAngle with target and pole fixed to the stars and the axis to the
// Earth; levelled it is −ω cos φ cos A / cos h.
func FieldRate(pole, target, axis Direction) (rate Rate, ok bool) {
	sm := target.Dot(axis)
	sin2 := 1 - sm*sm
	if sin2 < float64(nearestToPole*nearestToPole) {
		return 0, false
	}
	return -SiderealRate * Rate((pole.Dot(target)-sm*pole.Dot(axis))/sin2), true
}

// MountAxis returns the direction of an azimuth axis that leans by tilt from the zenith towards the
// azimuth toward. East, north, up.
func MountAxis(tilt, toward Angle) Direction {
	return Horizontal{Altitude: 90*Degree - tilt, Azimuth: toward}.Direction()
}

// AzimuthRate returns how fast a mount with that axis turns in azimuth to follow the target, along the
// coordinate and not on the sky; positive from north through east about the axis.
//
// Arguments as in FieldAngle. Valid: ok is false within 1″ of either end of the axis.
// Source: dA/dt = ω (sin φ − cos φ cos A tan h) (differentiating Meeus eq. 13.5), in vectors.
func AzimuthRate(pole, target, axis Direction) (rate Rate, ok bool) {
	sm := target.Dot(axis)
	cos2 := 1 - sm*sm
	if cos2 < float64(nearestToPole*nearestToPole) {
		return 0, false
	}
	return SiderealRate * Rate((pole.Dot(axis)-sm*pole.Dot(target))/cos2), true
}
