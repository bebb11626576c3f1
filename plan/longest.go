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

// swing is the range that the mechanical angle covers from its start over all axes; low is negative or 0.
type swing struct{ low, high sky.Angle }

func (s swing) with(low, high float64) swing {
	return swing{min(s.low, sky.Angle(low)), max(s.high, sky.Angle(high))}
}

// over returns by how much a swing is more than the travel. Where it comes to both sides of its start, guard stays
// unused at either limit.
func (s swing) over(travel, guard sky.Angle) sky.Angle {
	if s.low < 0 && s.high > 0 {
		return s.high - s.low - (travel - 2*guard)
	}
	return s.high - s.low - travel
}

// swing returns how far the mechanical angle comes from its start over all axes, up to the instant at which
// that is all of the travel, or until.
func (c *Course) swing(from, until time.Time, travel, guard sky.Angle) (s swing, end time.Time) {
	stop, passes := c.passage(from, until)
	f := follower{turning: c.turningFrom(from), travel: travel, guard: guard, before: from}
	for i := c.sampleAfter(from); f.before.Before(stop); i++ {
		if spent, end := f.step(i, stop); spent {
			return f.swing.with(f.exactly(end)), end
		}
	}
	if passes && travel < sky.Turn { // the axes on either side of the target differ by a turn
		return f.swing, stop
	}
	return f.swing.with(f.exactly(stop)), until
}

// follower follows a swing from sample to sample. What it has kept is exact: the start, and the peaks at which the
// field turns back.
type follower struct {
	turning
	swing
	travel, guard sky.Angle

	before, earlier                time.Time // the last two samples
	low, high, lowSlope, highSlope float64   // the change at the last, and what it was more than the one before
}

// step goes on to a sample of the track, or to stop if that comes first; spent tells that the travel is used up
// on the way, at end.
func (f *follower) step(sample int, stop time.Time) (spent bool, end time.Time) {
	times, next := f.course.track.Times(), stop
	var low, high, slack float64
	if sample < len(times) && times[sample].Before(stop) {
		next = times[sample]
		low, high, slack = f.roughly(sample)
	} else {
		low, high = f.exactly(stop)
	}
	f.turnBack(next, low, high)
	bend := math.Abs(high-f.high-f.highSlope) + math.Abs(low-f.low-f.lowSlope)
	if f.swing.with(low-slack-bend, high+slack+bend).over(f.travel, f.guard) > 0 {
		over := func(t time.Time) sky.Angle { return f.swing.with(f.exactly(t)).over(f.travel, f.guard) }
		peak := next
		if over(next) <= 0 {
			peak = farthestBetween(over, f.before, next)
		}
		if over(peak) > 0 {
			return true, sky.Root(over, f.before, peak)
		}
	}
	f.lowSlope, f.highSlope = low-f.low, high-f.high
	f.earlier, f.before, f.low, f.high = f.before, next, low, high
	return false, next
}

// turnBack keeps the peaks that lie about the last sample, if the change turns back there.
func (f *follower) turnBack(next time.Time, low, high float64) {
	if f.earlier.IsZero() {
		f.earlier = f.from
	}
	if f.highSlope >= 0 && high < f.high {
		peak := farthestBetween(func(t time.Time) sky.Angle { _, high := f.exactly(t); return sky.Angle(high) }, f.earlier, next)
		f.swing = f.swing.with(f.exactly(peak))
	}
	if f.lowSlope <= 0 && low > f.low {
		peak := farthestBetween(func(t time.Time) sky.Angle { low, _ := f.exactly(t); return sky.Angle(-low) }, f.earlier, next)
		f.swing = f.swing.with(f.exactly(peak))
	}
}
