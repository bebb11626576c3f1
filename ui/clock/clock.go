// Package clock is the one place that reads the machine's clock. Everything else is given instants, so
// that a night can be replayed at any speed and every screen be tested.
package clock

import "time"

// Source is where a clock has its time from.
type Source struct {
	Wall    func() time.Time
	Steady  func() time.Duration // how long the machine has been running, by a count that can't be set
	Boot    string               // names the start that Steady counts from; "" if nobody can tell
	Machine func() Machine       // nil if there is no machine to ask
	Led     bool                 // whoever leads it says when a second has passed: it asks for no ticks
}

// Clock tells the time of the night, which need not be that of the world.
type Clock struct {
	source Source
	base   time.Time // the real instant at which a replay began, with its monotonic reading
	start  time.Time // what the replay's clock showed then
	speed  float64   // seconds of the night in one real second
}

// processStart is what Go's own monotonic clock is counted from where the system offers nothing better.
var processStart = time.Now()

// From shows a source's time as it is.
func From(s Source) Clock { return Clock{source: s, speed: 1} }

// System is the machine's clock.
func System() Clock {
	return From(Source{Wall: time.Now, Steady: steady, Boot: boot(), Machine: thisMachine})
}

// Replay is a clock that starts at an instant of the night and runs speed times as fast as this one.
func (c Clock) Replay(start time.Time, speed float64) Clock {
	c.source.Machine = nil
	c.base, c.start, c.speed = c.source.Wall(), start.UTC(), speed
	return c
}

// Ticks tells whether the clock goes by itself.
func (c Clock) Ticks() bool { return !c.source.Led }

// Replaying tells whether the clock shows another time than the world's.
func (c Clock) Replaying() bool { return !c.start.IsZero() }

// Speed returns how many seconds of the night pass in one of the world.
func (c Clock) Speed() float64 { return c.speed }

// Now returns the instant of the night, UTC, without monotonic reading: differences of instants are
// those of the wall clock, which is what the sky follows.
func (c Clock) Now() time.Time {
	if !c.Replaying() {
		return c.source.Wall().UTC().Round(0)
	}
	real := c.source.Wall().Sub(c.base)
	return c.start.Add(time.Duration(float64(real) * c.speed))
}

// Reading is what the wall clock shows beside how long the machine has been running.
type Reading struct {
	Wall   time.Time     // UTC, without monotonic reading
	Steady time.Duration // since some instant in the past; it can't be set
	Boot   string        // names that instant: the same for all readings that count from it; "" if nobody can tell
}

// Began returns what the wall clock, as it goes now, would have shown when the steady count began.
func (r Reading) Began() time.Time { return r.Wall.Add(-r.Steady) }

// Reading returns both, by which a jump of the wall clock can be told from time that really passed.
func (c Clock) Reading() Reading {
	return Reading{c.source.Wall().UTC().Round(0), c.source.Steady(), c.source.Boot}
}

// SteadyCountsSleep tells whether Steady goes on while the machine sleeps. Where it does not, a sleep looks
// like a clock put forward.
func SteadyCountsSleep() bool { return steadyCountsSleep }

// SteadyOutlivesPrograms tells whether the count goes on from one program to the next, until the machine is started
// anew. Where it does not, each program counts from its own start.
func SteadyOutlivesPrograms() bool { return steadyCountsSleep }

// JumpSince returns by how far the wall clock has been put forward since an earlier reading, negative for
// back.
func (r Reading) JumpSince(earlier Reading) time.Duration {
	return r.Wall.Sub(earlier.Wall) - (r.Steady - earlier.Steady)
}

// fastestFrame is the shortest pause between two frames, so that a fast replay does not draw more than
// the eye takes in.
const fastestFrame = 100 * time.Millisecond

// UntilNextSecond returns the real time until the night's clock shows its next whole second.
func (c Clock) UntilNextSecond() time.Duration {
	now := c.Now()
	left := now.Truncate(time.Second).Add(time.Second).Sub(now)
	return max(time.Duration(float64(left)/c.speed), fastestFrame)
}
