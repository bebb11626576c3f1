package plan

import (
	"time"

	"duskhand/sky"
)

// The uncertainty that is left of an axis, 95 %: after a scale or level has been read, and after two sights of stars.
// Common practice: a level or a phone on the base is good to half a degree, two centred stars to a few minutes of arc.
const (
	AfterReading = 0.5 * sky.Degree
	AfterSights  = 5 * sky.Arcminute
)

// Price is what not knowing the axis better costs: the exposure gained over the schedule for the axis as it is known,
// if it were known exactly, to what two sights leave, and to what a reading leaves. None is negative.
type Price struct{ Exact, Sights, Reading time.Duration }

// Price returns the price of not knowing the axis, for the schedule that begins from a state of the night. It takes
// as many schedules as it gives figures, and is meant for the background.
//
// The axis is taken to be where it is believed to be: what a sight really gains depends on what it shows.
func (c *Course) Price(from Start, sequence Sequence) Price {
	if c.axes.known {
		return Price{}
	}
	sequence = sequence.By(nil) // no order: subs of other lengths at a run's end are no price
	now := c.Schedule(from, sequence).Exposed()
	gain := func(uncertainty sky.Angle) time.Duration {
		if uncertainty >= c.axes.radius {
			return 0
		}
		axis := c.Axis
		axis.Uncertainty = uncertainty
		return max(0, c.within(circleOf(axis)).Schedule(from, sequence).Exposed()-now)
	}
	return Price{Exact: gain(0), Sights: gain(AfterSights), Reading: gain(AfterReading)}
}
