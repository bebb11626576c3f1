package plan

import (
	"duskhand/plan/kit"
	"duskhand/sky"
)

// AxisFromLevel returns the axis of a mount on whose base a level or a phone reads a slope, falling most
// steeply towards the azimuth low.
//
// The axis stands square on the base, so it leans towards the LOW side: a base whose south edge is 2° too
// low carries an axis that leans 2° towards the south. A level's bubble runs to the other side, the high
// one: turn that by half a circle.
// Sign: a negative slope falls the other way.
// Uncertainty: how far the reading may be out, 95 %; the level's own error and how square the base is.
func AxisFromLevel(slope, low, uncertainty sky.Angle) kit.Axis {
	if slope < 0 {
		slope, low = -slope, low+180*sky.Degree
	}
	if slope < uprightWithin {
		low = 0
	}
	return kit.Axis{Tilt: slope, Toward: low.Wrapped(), Uncertainty: uncertainty.Abs()}
}
