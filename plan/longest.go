package plan

import (
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
// A stage that stops only at its ends starts at the one that lasts longer. One that stops anywhere and
// has travel to spare starts in the middle of the range that serves.
// Error: 1 s, with an axis known exactly.
// Source: the project's handbook, section 5.
func (c *Course) LongestRun(from, until time.Time) Stretch {
	d := c.Kit.Derotator
	if !d.StopsAnywhere {
		return c.fromTheBetterEnd(from, until)
	}
	low, high, end := c.swing(from, until, d.Travel())
	spent := end.Before(until)
	start := d.Min - low
	if !spent {
		start = (d.Min - low + d.Max - high) / 2
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

// swing returns the lowest and highest that the mechanical angle comes relative to its start, over all
// axes, up to the instant at which the two are travel apart or until.
func (c *Course) swing(from, until time.Time, travel sky.Angle) (low, high sky.Angle, end time.Time) {
	s := newSwing(c, from)
	before := from
	for before.Before(until) {
		next := before.Add(trackStep)
		if next.After(until) {
			next = until
		}
		ahead := s.through(next)
		if ahead.width() > travel {
			end = sky.Root(func(t time.Time) sky.Angle { return s.through(t).width() - travel }, before, next)
			s = s.through(end)
			return s.low, s.high, end
		}
		s, before = ahead, next
	}
	return s.low, s.high, until
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

func (s swing) width() sky.Angle { return s.high - s.low }
