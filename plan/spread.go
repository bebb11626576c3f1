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

// SpreadOf returns the spread of an axis that is known to within an angle in every direction, with 95 % certainty.
func SpreadOf(uncertainty sky.Angle) Spread {
	return Spread{East: uncertainty / certainty, North: uncertainty / certainty}
}

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

// Rim returns axes around axis, evenly around the rim of the ellipse that holds the true one with 95 %
// certainty. Where one part of the tilt is known well and the other badly, bounds taken over the ellipse are much
// narrower than over the circle of Radius.
func (s Spread) Rim(axis kit.Axis) []kit.Axis {
	axes := ellipseOf(s, axis)
	rim := make([]kit.Axis, rimAxes)
	for k := range rim {
		rim[k].Tilt, rim[k].Toward = tiltOf(axes.at(1, place(k)))
	}
	return rim
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
