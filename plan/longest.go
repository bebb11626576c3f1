package plan

import (
	"math"
	"time"

	"duskhand/sky"
)

// Stretch is how long the derotator can track from an instant, and where it must start for that.
type Stretch struct {
	Start sky.Angle // mechanical
	Until time.Time // when the first axis of the uncertainty reaches a limit, or the bound that was given
	Spent bool      // the whole travel is used; otherwise the bound came first
}

// LongestRun returns the longest run from an instant that any start angle allows, before until: the
// largest T for which max χ − min χ over [from, from+T] is no more than the travel. With an uncertain
// axis the maximum and minimum are taken over all axes of the circle, so that the run is safe for each.
//
// It uses the travel to its last hair; a stage that is set by hand wants PlannedRun.
// A stage that stops only at its ends starts at the one that lasts longer. One that stops anywhere and
// has travel to spare starts in the middle of the range that serves.
// Error: 1 s, with an axis known exactly.
// Source: the project's handbook, section 5.
func (c *Course) LongestRun(from, until time.Time) Stretch { return c.longest(from, until, 0) }

// guard is the travel that PlannedRun leaves unused at each end where the field turns back in a run: as
// much as keeps an angle set to the nearest tenth of a degree from touching the limit there.
const guard = 0.1 * sky.Degree

// PlannedRun is LongestRun for a stage that is set to the tenth of a degree, as scales are read: Start is
// such an angle, or a limit itself, and where the field turns back within the run both limits keep their
// distance. It lasts as long as From says for that start, which LongestRun's need not when rounding makes it
// touch a limit at the reversal.
func (c *Course) PlannedRun(from, until time.Time) Stretch {
	d := c.Kit.Derotator
	stretch := c.longest(from, until, guard)
	if stretch.Start == d.Min || stretch.Start == d.Max {
		return stretch
	}
	tenth := sky.Angle(math.Round(stretch.Start.Degrees()*10)/10) * sky.Degree
	return c.From(Anchor{from, max(d.Min, min(tenth, d.Max))}, until)
}

func (c *Course) longest(from, until time.Time, guard sky.Angle) Stretch {
	d := c.Kit.Derotator
	if !d.StopsAnywhere {
		return c.fromTheBetterEnd(from, until)
	}
	s, end := c.swing(from, until, d.Travel(), guard)
	spent := end.Before(until)
	start := (d.Min - s.low + d.Max - s.high) / 2 // the middle of the range that serves
	switch {
	case spent && s.low == 0:
		start = d.Min
	case spent && s.high == 0:
		start = d.Max
	}
	return Stretch{Start: max(d.Min, min(start, d.Max)), Until: end, Spent: spent}
}

// From returns how long a run lasts that starts at a given mechanical angle.
func (c *Course) From(anchor Anchor, until time.Time) Stretch {
	limit := c.Limit(anchor, until)
	if !limit.Early.OK {
		return Stretch{Start: anchor.Angle, Until: until}
	}
	return Stretch{Start: anchor.Angle, Until: limit.Early.At, Spent: true}
}

func (c *Course) fromTheBetterEnd(from, until time.Time) Stretch {
	d := c.Kit.Derotator
	atMin, atMax := c.From(Anchor{from, d.Min}, until), c.From(Anchor{from, d.Max}, until)
	if atMax.Until.After(atMin.Until) {
		return atMax
	}
	return atMin
}

// swing returns how far the mechanical angle comes from its start over all axes, up to the instant at which
// that is all of the travel, or until. Where it comes to both sides of its start, guard stays unused at
// either limit.
func (c *Course) swing(from, until time.Time, travel, guard sky.Angle) (s swing, end time.Time) {
	s = newSwing(c, from)
	over := func(s swing) sky.Angle {
		if s.low < 0 && s.high > 0 {
			return s.high - s.low - (travel - 2*guard)
		}
		return s.high - s.low - travel
	}
	before := from
	for before.Before(until) {
		next := before.Add(trackStep)
		if next.After(until) {
			next = until
		}
		ahead := s.through(next)
		if over(ahead) > 0 {
			end = sky.Root(func(t time.Time) sky.Angle { return over(s.through(t)) }, before, next)
			return s.through(end), end
		}
		s, before = ahead, next
	}
	return s, until
}

// swing is the range that the mechanical angle has covered since its start over all axes.
type swing struct {
	paths     []*sky.Path
	starts    []sky.Angle
	sense     sky.Angle
	at        time.Time
	low, high sky.Angle
}

func newSwing(c *Course, from time.Time) swing {
	s := swing{paths: c.paths(), sense: sky.Angle(c.Kit.Derotator.Sense), at: from}
	for _, p := range s.paths {
		s.starts = append(s.starts, p.At(from))
	}
	return s
}

// through returns the swing grown to t, reversals on the way included.
func (s swing) through(t time.Time) swing {
	for i, p := range s.paths {
		knots := p.Knots()
		for k := p.KnotAfter(s.at); k < len(knots) && knots[k].At.Before(t); k++ {
			s.include(s.sense * (knots[k].Chi - s.starts[i]))
		}
		s.include(s.sense * (p.At(t) - s.starts[i]))
	}
	s.at = t
	return s
}

func (s *swing) include(m sky.Angle) { s.low, s.high = min(s.low, m), max(s.high, m) }
