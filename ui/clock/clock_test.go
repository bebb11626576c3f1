package clock_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/ui/clock"
	"duskhand/ui/testdata/clocks"
)

var dusk = time.Date(2026, 12, 5, 11, 30, 0, 400e6, time.UTC)

func TestFixedClockStandsStill(t *testing.T) {
	c := clocks.Fixed(dusk)
	assert.Equal(t, dusk, c.Now())
	assert.Equal(t, 600*time.Millisecond, c.UntilNextSecond())
	assert.False(t, c.Replaying())
}

func TestReplayRunsAtItsSpeed(t *testing.T) {
	world := dusk.AddDate(0, 3, 0)
	c := clocks.Led(func() time.Time { return world }).Replay(dusk, 3600)
	assert.True(t, c.Replaying())
	assert.Equal(t, 3600.0, c.Speed())
	assert.Equal(t, dusk, c.Now(), "it begins where it was told to")
	world = world.Add(time.Second)
	assert.Equal(t, dusk.Add(time.Hour), c.Now())
	assert.Equal(t, 100*time.Millisecond, c.UntilNextSecond(), "a fast replay draws ten frames a second at most")
	slow := clocks.Led(func() time.Time { return world }).Replay(dusk, 0.5)
	assert.Equal(t, 1200*time.Millisecond, slow.UntilNextSecond(), "0.6 s of the night at half its speed")
}

func TestSystemClockHasNoMonotonicReading(t *testing.T) {
	now := clock.System().Now()
	assert.Equal(t, now, now.Round(0))
	assert.Equal(t, time.UTC, now.Location())
}
