// Package clocks has clocks that a test leads. Only tests use it.
package clocks

import (
	"time"

	"duskhand/ui/clock"
)

// Fixed always shows t.
func Fixed(t time.Time) clock.Clock { return Led(func() time.Time { return t }) }

// Led shows what now returns. Whoever leads it says when a second has passed: it asks for no ticks.
func Led(now func() time.Time) clock.Clock {
	start := now()
	return LedBeside(now, func() time.Duration { return now().Sub(start) }, "")
}

// LedBeside is Led with a steady count of its own from a start of that name, for clocks that jump.
func LedBeside(now func() time.Time, steady func() time.Duration, boot string) clock.Clock {
	return clock.From(clock.Source{Wall: now, Steady: steady, Boot: boot, Led: true})
}
