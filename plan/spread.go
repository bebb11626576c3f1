package plan

import (
	"math"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// Spread is the covariance of an axis's tilt vector, whose parts are tilt·sin and tilt·cos of the azimuth
// it leans towards: one standard deviation of each, and how far they go together, −1 to 1.
type Spread struct {
	East, North sky.Angle
	Correlation float64
}

// certainty turns a standard deviation into what an axis is said to be known to within: 95 % of a normal
// distribution in two dimensions lie inside that many standard deviations, √χ²(2; 0.95).
const certainty = 2.4477

func spreadOf(ee, nn, en float64) Spread {
	s := Spread{East: sky.Angle(math.Sqrt(ee)), North: sky.Angle(math.Sqrt(nn))}
	if ee > 0 && nn > 0 {
		s.Correlation = en / math.Sqrt(ee*nn)
	}
	return s
}

// widened returns the spread with both errors k times as large.
func (s Spread) widened(k float64) Spread {
	return Spread{East: sky.Angle(k) * s.East, North: sky.Angle(k) * s.North, Correlation: s.Correlation}
}

// Major returns the larger semi-axis of the ellipse of one standard deviation.
func (s Spread) Major() sky.Angle {
	ee, nn := float64(s.East*s.East), float64(s.North*s.North)
	en := s.Correlation * float64(s.East*s.North)
	return sky.Angle(math.Sqrt((ee+nn)/2 + math.Hypot((ee-nn)/2, en)))
}

// RMS returns the root mean square length of the tilt vector's error, both parts together.
func (s Spread) RMS() sky.Angle { return sky.Angle(math.Hypot(float64(s.East), float64(s.North))) }

// Radius returns the radius of the circle that holds the tilt vector with at least 95 % certainty.
func (s Spread) Radius() sky.Angle { return certainty * s.Major() }

// Rim returns axes around axis that hold the true one with 95 % certainty: the ellipse, drawn a little
// outside it so that the polygon between them contains it. Where one part of the tilt is known well and the
// other badly, bounds taken over the ellipse are much narrower than over the circle of Radius.
func (s Spread) Rim(axis kit.Axis) []kit.Axis {
	east, north := axis.Tilt*sky.Angle(axis.Toward.Sin()), axis.Tilt*sky.Angle(axis.Toward.Cos())
	across := math.Sqrt(math.Max(0, 1-s.Correlation*s.Correlation))
	outside := certainty / math.Cos(math.Pi/rimAxes)
	rim := make([]kit.Axis, rimAxes)
	for i := range rim {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / rimAxes)
		e := east + s.East*sky.Angle(outside*cos)
		n := north + s.North*sky.Angle(outside*(s.Correlation*cos+across*sin)) // the Cholesky factor of the covariance
		rim[i].Tilt = sky.Angle(math.Hypot(float64(e), float64(n)))
		rim[i].Toward = sky.Angle(math.Atan2(float64(e), float64(n))).Wrapped()
	}
	return rim
}

// directions is Rim as directions, none when the axis is known exactly.
func (s Spread) directions(axis kit.Axis) []sky.Direction {
	if s.East == 0 && s.North == 0 {
		return nil
	}
	var directions []sky.Direction
	for _, rim := range s.Rim(axis) {
		directions = append(directions, sky.MountAxis(rim.Tilt, rim.Toward))
	}
	return directions
}

// tiltOf returns how far an axis leans and towards which azimuth, [0°, 360°). An axis as good as upright
// leans towards 0°.
func tiltOf(axis sky.Direction) (tilt, toward sky.Angle) {
	tilt = axis.Separation(sky.Direction{Z: 1})
	if tilt < uprightWithin {
		return tilt, 0
	}
	return tilt, axis.Horizontal().Azimuth
}

// uprightWithin is the tilt below which its direction means nothing: a thirtieth of a second, less than
// any readout shows.
const uprightWithin = sky.Arcsecond / 30
