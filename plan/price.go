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

// Standing is how long the stage would be left standing still before dark, for lights of the target to tell the tilt.
const Standing = 10 * time.Minute

// The lights that would be taken meanwhile, one each so often, and how well each gives the camera angle: one σ of the
// usual field. Common practice.
const (
	standingEvery = time.Minute
	standingSigma = 0.005 * sky.Degree
)

// AfterStanding returns the spread that is left of an uncertain axis when lights are placed of a stage that stands still
// for ten minutes up to an instant: hardly any across the way in which they tell, and along it what there was. ok is
// false where nothing can be reckoned.
//
// Source: own derivation; the covariance of FitJoint, which does not depend on what the lights show.
func (c *Course) AfterStanding(until time.Time) (left Spread, ok bool) {
	if c.axes.known {
		return Spread{}, false
	}
	span := StageSpan{Course: c, Still: true}
	for t := until.Add(-Standing); !t.After(until); t = t.Add(standingEvery) {
		span.Cameras = append(span.Cameras, CameraSeen{At: t, Camera: c.FieldAngle(t), Error: standingSigma})
	}
	fit, err := FitJoint(JointPrior{Axis: c.Axis}, []StageSpan{span}, standingReading)
	return fit.Spread, err == nil
}

// standingReading is the error of a reading, of which there is none in such a fit.
const standingReading = 0.1 * sky.Degree

// Price is what not knowing the axis better costs: the exposure gained over the schedule for the axis as it is known,
// if it were known exactly, to what two sights leave, to what a reading leaves, and to what a stage leaves that stands
// still for ten minutes before dark, 0 when it is dark. None is negative.
type Price struct{ Exact, Sights, Reading, Standing time.Duration }

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
	price := Price{Exact: gain(0), Sights: gain(AfterSights), Reading: gain(AfterReading)}
	if len(c.Dark) > 0 && price.Exact > 0 {
		if dusk := c.Dark[0].From; from.At.Before(dusk.Add(-Standing)) {
			if left, ok := c.AfterStanding(dusk); ok {
				price.Standing = max(0, c.within(ellipseOf(left, c.Axis)).Schedule(from, sequence).Exposed()-now)
			}
		}
	}
	return price
}
