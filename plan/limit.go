package plan

import (
	"time"

	"duskhand/sky"
)

// Anchor is a mechanical angle of the derotator that is known at an instant: where a rewind left it, or
// what the operator read.
type Anchor struct {
	At    time.Time
	Angle sky.Angle
}

// Side is which limit of the derotator's travel is meant.
type Side int

// The sides. NoLimit: neither is reached.
const (
	MinLimit Side = -1
	NoLimit  Side = 0
	MaxLimit Side = 1
)

// String gives the side as compute prints it: "min", "max", "none".
func (s Side) String() string { return [...]string{"min", "none", "max"}[s+1] }

// Limit is when a tracking derotator reaches the end of its travel.
type Limit struct {
	Side  Side
	At    sky.Event // for the axis as known; not OK when no limit is reached
	Early sky.Event // the earliest over the axis's uncertainty, never later than At; the rewind is called by it
	Late  sky.Event // the latest; not OK when for some axis no limit is reached at all
}

// Limit returns when a derotator that tracks from anchor on reaches a limit, before until.
//
// The mechanical angle is m(t) = m₀ + s·(χ(t) − χ(t₀)), s the sense of the installation. χ is followed
// through reversals, so a limit is found whichever way the field turns by then.
// The bounds are extrema over all axes that the mount's may be, rim and inside, and safe for each of them.
// Error: 1 s for the axis given, plus what 0.5″ of place are worth; of the bounds, the same.
// Source: the project's handbook, section 5; of the bounds, see turning.
func (c *Course) Limit(anchor Anchor, until time.Time) Limit { return c.limits.of(c, anchor, until) }

func (c *Course) limit(anchor Anchor, until time.Time) Limit {
	var limit Limit
	limit.At, limit.Side = c.firstExit(c.nominal, anchor, until)
	limit.Early, limit.Late = limit.At, limit.At
	if c.axes.known || !anchor.At.Before(until) {
		return limit
	}
	var side Side
	if limit.Early, side = c.earliest(anchor, until); limit.Side == NoLimit {
		limit.Side = side
	}
	if limit.At.OK && (!limit.Early.OK || limit.At.At.Before(limit.Early.At)) {
		limit.Early = limit.At // by the last millisecond
	}
	if limit.Late = c.latest(anchor, until); limit.Late.OK && limit.Late.At.Before(limit.At.At) {
		limit.Late = limit.At
	}
	return limit
}

// early returns the early bound of Limit alone, which is found much faster than all of it.
func (c *Course) early(anchor Anchor, until time.Time) sky.Event {
	if c.axes.known || !anchor.At.Before(until) {
		exit, _ := c.firstExit(c.nominal, anchor, until)
		return exit
	}
	exit, _ := c.earliest(anchor, until)
	return exit
}

// Angle returns the mechanical angle at t of a derotator that tracks from anchor on, for the axis as
// known. It may lie outside the travel: the stage itself would have stopped.
func (c *Course) Angle(anchor Anchor, t time.Time) sky.Angle {
	sense := sky.Angle(c.Kit.Derotator.Sense)
	return anchor.Angle + sense*(c.nominal.At(t)-c.nominal.At(anchor.At))
}

// firstExit follows one path from anchor until the mechanical angle leaves the travel. Between two knots
// χ is monotonic, so looking at the knots misses nothing. A scale that is not zeroed to the tenth may put the
// anchor outside: on that side the travel begins there, and turning inwards reaches no limit.
func (c *Course) firstExit(path *sky.Path, anchor Anchor, until time.Time) (sky.Event, Side) {
	d := c.Kit.Derotator
	lowest, highest := min(d.Min, anchor.Angle), max(d.Max, anchor.Angle)
	start := path.At(anchor.At)
	mechanical := func(chi sky.Angle) sky.Angle { return anchor.Angle + sky.Angle(d.Sense)*(chi-start) }
	before := anchor.At
	knots := path.Knots()
	for i := path.KnotAfter(anchor.At); i <= len(knots); i++ {
		end := sky.Knot{At: until}
		if i < len(knots) && knots[i].At.Before(until) {
			end = knots[i]
		} else {
			end.Chi = path.At(until)
		}
		m := mechanical(end.Chi)
		if m < lowest {
			return exitBetween(path, before, end.At, func(chi sky.Angle) sky.Angle { return mechanical(chi) - lowest }), MinLimit
		}
		if m > highest {
			return exitBetween(path, before, end.At, func(chi sky.Angle) sky.Angle { return mechanical(chi) - highest }), MaxLimit
		}
		if before = end.At; !before.Before(until) {
			break
		}
	}
	return sky.Event{}, NoLimit
}

func exitBetween(path *sky.Path, from, to time.Time, past func(sky.Angle) sky.Angle) sky.Event {
	return sky.Event{At: sky.Root(func(t time.Time) sky.Angle { return past(path.At(t)) }, from, to), OK: true}
}
