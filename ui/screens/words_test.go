package screens_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/sky"
	"duskhand/ui/facts"
	"duskhand/ui/say"
	"duskhand/ui/screens"
)

func TestCountdownNeverMixesItsUnits(t *testing.T) {
	for _, c := range []struct {
		left   time.Duration
		digits string
		unit   string
	}{
		{0, "0:00", "minutes and seconds"},
		{-time.Minute, "0:00", "minutes and seconds"},
		{59*time.Second + 999*time.Millisecond, "0:59", "minutes and seconds"},
		{59*time.Minute + 59*time.Second, "59:59", "minutes and seconds"},
		{time.Hour, "1h00", "hours and minutes"},
		{76*time.Minute + 59*time.Second, "1h16", "hours and minutes"},
		{11*time.Hour + 5*time.Minute, "11h05", "hours and minutes"},
	} {
		digits, unit := say.Countdown(c.left)
		assert.Equal(t, c.digits, digits, c.left)
		assert.Equal(t, c.unit, unit, c.left)
	}
}

func TestWords(t *testing.T) {
	assert.Equal(t, "45 s", facts.Lasting(45*time.Second))
	assert.Equal(t, "16 min", facts.Lasting(16*time.Minute+20*time.Second))
	assert.Equal(t, "1 h", facts.Lasting(time.Hour-time.Second))
	assert.Equal(t, "1 h 52 min", facts.Lasting(112*time.Minute))
	assert.Equal(t, "2 h", facts.Lasting(2*time.Hour))
	assert.Equal(t, "north", screens.CompassWords(359*sky.Degree))
	assert.Equal(t, "south-south-east", screens.CompassWords(152*sky.Degree))
	assert.Equal(t, "SSE", screens.CompassLetters(152*sky.Degree))
	assert.Equal(t, "0°", screens.WholeDegrees(359.6*sky.Degree))
}
