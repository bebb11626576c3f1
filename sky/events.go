package sky

import (
	"math"
	"time"
)

// Event is an instant that may not come: OK is false when it does not happen, and At means nothing then.
type Event struct {
	At time.Time
	OK bool
}

// Crossing is an instant at which a curve passes a level, upwards if Rising.
type Crossing struct {
	At     time.Time
	Rising bool
}

// Curve is an angle as a function of time, sampled over an interval so that all its crossings of a
// level can be found.
type Curve struct {
	f      func(time.Time) Angle
	times  []time.Time
	values []Angle
}

// Sample returns f over [from, to] in equal steps of at most step. Between two samples f may turn
// once: no crossing is missed, not even two between samples, unless f turns twice within step.
func Sample(f func(time.Time) Angle, from, to time.Time, step time.Duration) Curve {
	n := max(1, int(math.Ceil(to.Sub(from).Seconds()/step.Seconds())))
	times := make([]time.Time, n+1)
	for i := range times {
		times[i] = from.Add(time.Duration(float64(to.Sub(from)) * float64(i) / float64(n)))
	}
	return SampleAt(f, times)
}

// SampleAt is Sample at instants of the caller's choice, in order, at least two. f may have a corner at each.
func SampleAt(f func(time.Time) Angle, times []time.Time) Curve {
	c := Curve{f: f, times: times, values: make([]Angle, len(times))}
	for i, t := range times {
		c.values[i] = f(t)
	}
	return c
}

// Start returns the curve's value at its beginning.
func (c Curve) Start() Angle { return c.values[0] }

// Crossings returns where the curve passes level, in order.
func (c Curve) Crossings(level Angle) []Crossing {
	var found []Crossing
	above := func(t time.Time) Angle { return c.f(t) - level }
	pass := func(from, to time.Time, rising bool) {
		found = append(found, Crossing{Root(above, from, to), rising})
	}
	for i := 1; i < len(c.times); i++ {
		t0, t1 := c.times[i-1], c.times[i]
		v0, v1 := c.values[i-1]-level, c.values[i]-level
		if (v0 < 0) != (v1 < 0) {
			pass(t0, t1, v0 < 0)
			continue
		}
		if turn, ok := c.turnTowards(i, level); ok && (above(turn) < 0) != (v0 < 0) {
			pass(t0, turn, v0 < 0)
			pass(turn, t1, v0 >= 0)
		}
	}
	return found
}

// turnTowards returns the extremum inside step i that comes nearest to level from the side where both
// ends of the step are. An extremum between two samples shows in their neighbours: the curve approached
// before, or leaves after. At the ends of the interval, where a neighbour is missing, it is looked for.
func (c Curve) turnTowards(i int, level Angle) (time.Time, bool) {
	away := func(j int) float64 { return math.Abs(float64(c.values[j] - level)) }
	approaching := i < 2 || away(i-2) > away(i-1)
	leaving := i+1 >= len(c.values) || away(i+1) > away(i)
	step := math.Abs(float64(c.values[i] - c.values[i-1]))
	nearEnough := math.Min(away(i), away(i-1)) <= 2*step+float64(2*Degree)
	if !approaching || !leaving || !nearEnough {
		return time.Time{}, false
	}
	sign := 1.0
	if c.values[i] < level {
		sign = -1
	}
	f := func(t time.Time) float64 { return sign * float64(c.f(t)-level) }
	return lowest(f, c.times[i-1], c.times[i]), true
}
