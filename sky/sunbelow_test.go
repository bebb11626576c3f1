package sky_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/sky"
)

func solstice(latitude float64) (*sky.Frame, time.Time) {
	place := sky.Site{Latitude: sky.Angle(latitude) * sky.Degree}
	noon := sky.SolarNoon(place, 2026, time.June, 20)
	return sky.NewFrame(place, noon.Add(12*time.Hour), 0), noon
}

func TestTheSunsLowestIsWhatLatitudeAndDeclinationLeave(t *testing.T) {
	// At lower culmination its altitude is φ + δ − 90°, δ = 23.437° on 21 June 2026 (the obliquity of the ecliptic).
	for _, latitude := range []float64{0, 30, 52.2, 70} {
		frame, noon := solstice(latitude)
		at, altitude := frame.SunLowest(noon)
		want := latitude + 23.437 - 90
		if latitude < 23.437 { // the Sun culminates in the north: the shorter way down is φ's other side
			want = -90 + latitude + 23.437
		}
		assert.InDelta(t, want, altitude.Degrees(), 0.005, "latitude %v", latitude)
		assert.WithinDuration(t, noon.Add(12*time.Hour), at, 5*time.Minute, "the equation of time is 2 minutes in June")
	}
}

func TestTheSunBelowALevelAgreesWithTheTwilights(t *testing.T) {
	frame, noon := solstice(40)
	w := frame.Twilight(noon)
	for _, c := range []struct {
		level        sky.Angle
		sinks, rises sky.Event
		name         string
	}{
		{sky.AstronomicalTwilight, w.AstronomicalDusk, w.AstronomicalDawn, "astronomical"},
		{sky.NauticalTwilight, w.NauticalDusk, w.NauticalDawn, "nautical"},
	} {
		sinks, rises := frame.SunBelow(noon, c.level)
		require.True(t, sinks.OK && rises.OK, c.name)
		assert.Equal(t, c.sinks, sinks, c.name)
		assert.Equal(t, c.rises, rises, c.name)
	}
	sinks, _ := frame.SunBelow(noon, -9*sky.Degree)
	assert.InDelta(t, -9, frame.Sun(sinks.At).Altitude.Degrees(), 1e-5) // the root's millisecond
	frame, noon = solstice(52.2)
	sinks, rises := frame.SunBelow(noon, sky.AstronomicalTwilight)
	assert.False(t, sinks.OK || rises.OK, "it goes to −14.4° only")
}
