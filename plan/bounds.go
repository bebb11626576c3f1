package plan

import (
	"math"
	"time"

	"duskhand/sky"
)

// room is how far the mechanical angle may go from where it is anchored: low is negative or 0.
type room struct{ low, high float64 }

// touching is how much a limit may be passed by rounding alone, in radians.
const touching = 1e-10

// roomOf returns the room of an anchor. A scale that is not zeroed to the tenth may put it outside the travel: on
// that side the travel begins there, and turning inwards reaches no limit.
func (c *Course) roomOf(anchor Anchor) room {
	d := c.Kit.Derotator
	return room{low: math.Min(0, float64(d.Min-anchor.Angle)), high: math.Max(0, float64(d.Max-anchor.Angle))}
}

// past returns by how much a change has passed the nearer limit, negative inside.
func (r room) past(low, high float64) float64 { return math.Max(high-r.high, r.low-low) }

// side returns which limit a change is nearer to, or farther past.
func (r room) side(low, high float64) Side {
	if r.low-low > high-r.high {
		return MinLimit
	}
	return MaxLimit
}

// earliest returns when the first axis of the region reaches a limit.
//
// The first exit over all axes is the first instant at which the greatest or the least change over all axes
// leaves the room: two functions of time, followed from sample to sample, and searched between them where they
// come near a limit or turn back.
func (c *Course) earliest(anchor Anchor, until time.Time) (exit sky.Event, side Side) {
	g, r := c.turningFrom(anchor.At), c.roomOf(anchor)
	end, passes := c.passage(anchor.At, until)
	if at, found := g.leaves(r, end); found {
		low, high := g.exactly(at)
		return sky.Event{At: at, OK: true}, r.side(low, high)
	}
	if !passes {
		return sky.Event{}, NoLimit
	}
	if r.high-r.low < 2*math.Pi { // the axes that the target passes on either side differ by a turn
		low, high := g.exactly(end)
		return sky.Event{At: end, OK: true}, r.side(low, high)
	}
	return c.earliestOfMany(anchor, until)
}

// passage returns the first instant from which on the target passes over the region, before until; until, and
// false, if it does not.
func (c *Course) passage(from, until time.Time) (at time.Time, passes bool) {
	if c.axes.known {
		return until, false
	}
	outside := func(t time.Time) sky.Angle {
		share, _ := c.axes.passed(c.track.At(t))
		return sky.Angle(share - 1)
	}
	if outside(from) < 0 {
		return from, true
	}
	times := c.track.Times()
	before := from
	for i := c.sampleAfter(from); i < len(times) && before.Before(until); i++ {
		next := earlier(times[i], until)
		// A target moves by half a degree in a step: nothing passes unseen further off than that.
		near := c.axes.radius*sky.Angle(c.rim.shares[i]-1) < sky.Degree || c.rim.shares[i] < 1.5
		if near {
			if closest := closestBetween(outside, before, next); outside(closest) < 0 {
				return sky.Root(outside, before, closest), true
			}
		}
		before = next
	}
	return until, false
}

// closestBetween returns the instant at which f is least, for a curve with one minimum there.
func closestBetween(f func(time.Time) sky.Angle, from, to time.Time) time.Time {
	if f(to) < 0 {
		return to
	}
	_, at := narrowed(func(s float64) float64 { return -float64(f(from.Add(seconds(s)))) }, 0, to.Sub(from).Seconds())
	return from.Add(seconds(at))
}

func seconds(s float64) time.Duration { return time.Duration(s * float64(time.Second)) }

// sampleAfter returns the index of the first sample of the track later than t.
func (c *Course) sampleAfter(t time.Time) int {
	times := c.track.Times()
	i := max(0, int(t.Sub(times[0])/trackStep))
	for i < len(times) && !times[i].After(t) {
		i++
	}
	return i
}

// leaves returns when the change over all axes first leaves the room, before until, through which the target
// must not pass over the region.
func (g *turning) leaves(r room, until time.Time) (at time.Time, found bool) {
	c := g.course
	times := c.track.Times()
	past := func(t time.Time) sky.Angle {
		low, high := g.exactly(t)
		return sky.Angle(r.past(low, high) - touching)
	}
	before, lowBefore, highBefore := g.from, 0.0, 0.0
	var lowSlope, highSlope float64
	for i := c.sampleAfter(g.from); before.Before(until); i++ {
		next := until
		var low, high, slack float64
		if i < len(times) && times[i].Before(until) {
			next = times[i]
			low, high, slack = g.roughly(i)
		} else {
			low, high = g.exactly(until)
		}
		bend := math.Abs(high-highBefore-highSlope) + math.Abs(low-lowBefore-lowSlope)
		if r.past(low-slack-bend, high+slack+bend) > 0 {
			if past(next) > 0 {
				return sky.Root(past, before, next), true
			}
			if peak := farthestBetween(past, before, next); past(peak) > 0 {
				return sky.Root(past, before, peak), true
			}
		}
		lowSlope, highSlope = low-lowBefore, high-highBefore
		before, lowBefore, highBefore = next, low, high
	}
	return until, false
}

// farthestBetween returns the instant at which f is greatest, for a curve with one maximum there.
func farthestBetween(f func(time.Time) sky.Angle, from, to time.Time) time.Time {
	_, at := narrowed(func(s float64) float64 { return float64(f(from.Add(seconds(s)))) }, 0, to.Sub(from).Seconds())
	return from.Add(seconds(at))
}
