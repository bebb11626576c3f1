package plan

import (
	"math"
	"slices"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// laterStep is how finely a later start is tried when no sub fits a run from an earlier one.
const laterStep = 2 * time.Minute

// starts returns the instants of a span at which a run is tried, in order: every two minutes, and for a stage
// that must begin at the wanted angle and stops only at its ends also when one of these gives it. That lasts
// for seconds only.
func (c *Course) starts(within Span) (instants []time.Time) {
	for at := within.From; at.Before(within.To); at = at.Add(laterStep) {
		instants = append(instants, at)
	}
	if c.Rule.Keep == kit.AlwaysKeep && !c.Kit.Derotator.StopsAnywhere {
		instants = append(instants, c.passesOfEnds(within)...)
		slices.SortFunc(instants, time.Time.Compare)
	}
	return instants
}

// passesOfEnds returns the instants of a span at which the reading that gives the wanted angle, or one that
// covers the same sky, passes an end of the travel. Between two knots the field turns one way, so that no pass
// is missed unless it turns by more than Alike there.
//
// Error: 1 ms.
func (c *Course) passesOfEnds(within Span) (instants []time.Time) {
	d, alike := c.Kit.Derotator, c.Rule.Alike
	needed := func(t time.Time) sky.Angle { return c.readingGiving(c.Rule.Wanted, t) }
	knots := c.nominal.Knots()
	before, at := within.From, needed(within.From)
	for i := c.nominal.KnotAfter(before); before.Before(within.To); i++ {
		next := within.To
		if i < len(knots) && knots[i].At.Before(next) {
			next = knots[i].At
		}
		then := needed(next)
		for _, end := range []sky.Angle{d.Min, d.Max} {
			low, high := min(at, then), max(at, then)
			if pass := end + alike*sky.Angle(math.Floor(float64((high-end)/alike))); low < pass {
				past := func(t time.Time) sky.Angle { return needed(t) - pass }
				instants = append(instants, sky.Root(past, before, next))
			}
		}
		before, at = next, then
	}
	return instants
}
