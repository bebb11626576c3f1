// Package clock is the one place that reads the machine's clock. Everything else is given instants, so
// that a night can be replayed at any speed and every screen be tested.
package clock

import "time"

// Clock tells the time of the night, which need not be that of the world.
type Clock struct {
	wall  func() time.Time
	base  time.Time // the real instant at which a replay began, with its monotonic reading
	start time.Time // what the replay's clock showed then
	speed float64   // seconds of the night in one real second
	led   bool      // somebody else moves it: it asks for no ticks

	steady  func() time.Duration
	boot    string         // names the start that steady counts from
	machine func() Machine // nil but for the machine's own clock
}

// processStart is what Go's own monotonic clock is counted from where the system offers nothing better.
var processStart = time.Now()

// System is the machine's clock.
func System() Clock {
	return Clock{wall: time.Now, speed: 1, steady: steady, boot: boot(), machine: thisMachine}
}

// Replay starts at an instant of the night and runs speed times as fast as the world.
func Replay(start time.Time, speed float64) Clock {
	return Clock{wall: time.Now, base: time.Now(), start: start.UTC(), speed: speed, steady: steady, boot: boot()}
}

// Fixed always shows t: for tests and for pictures.
func Fixed(t time.Time) Clock { return Led(func() time.Time { return t }) }

// Led shows what now returns. Whoever leads it says when a second has passed: it asks for no ticks.
func Led(now func() time.Time) Clock {
	start := now()
	return LedBeside(now, func() time.Duration { return now().Sub(start) }, "")
}

// LedBeside is Led with a steady count of its own from a start of that name, for tests of clocks that jump.
func LedBeside(now func() time.Time, steady func() time.Duration, boot string) Clock {
	return Clock{wall: now, speed: 1, led: true, steady: steady, boot: boot}
}

// WithoutTicks is the same clock, led by whoever looks at it.
func (c Clock) WithoutTicks() Clock {
	c.led = true
	return c
}

// Ticks tells whether the clock goes by itself.
func (c Clock) Ticks() bool { return !c.led }

// Replaying tells whether the clock shows another time than the world's.
func (c Clock) Replaying() bool { return !c.start.IsZero() }

// Speed returns how many seconds of the night pass in one of the world.
func (c Clock) Speed() float64 { return c.speed }

// Now returns the instant of the night, UTC, without monotonic reading: differences of instants are
// those of the wall clock, which is what the sky follows.
func (c Clock) Now() time.Time {
	if !c.Replaying() {
		return c.wall().UTC().Round(0)
	}
	real := c.wall().Sub(c.base)
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
func (c Clock) Reading() Reading { return Reading{c.wall().UTC().Round(0), c.steady(), c.boot} }

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
