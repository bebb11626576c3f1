package clock_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/ui/clock"
)

var dusk = time.Date(2026, 12, 5, 11, 30, 0, 400e6, time.UTC)

func TestFixedClockStandsStill(t *testing.T) {
	c := clock.Fixed(dusk)
	assert.Equal(t, dusk, c.Now())
	assert.Equal(t, 600*time.Millisecond, c.UntilNextSecond())
	assert.False(t, c.Replaying())
}

func TestReplayRunsAtItsSpeed(t *testing.T) {
	c := clock.Replay(dusk, 3600)
	assert.True(t, c.Replaying())
	first := c.Now()
	assert.False(t, first.Before(dusk))
	// Some real time passes between two readings, if only nanoseconds; at 3600 times it shows.
	for c.Now().Equal(first) {
	}
	assert.True(t, c.Now().After(first))
	assert.GreaterOrEqual(t, c.UntilNextSecond(), 100*time.Millisecond, "a fast replay draws ten frames a second at most")
}

func TestSystemClockHasNoMonotonicReading(t *testing.T) {
	now := clock.System().Now()
	assert.Equal(t, now, now.Round(0))
	assert.Equal(t, time.UTC, now.Location())
}
