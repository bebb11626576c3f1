package sky_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"duskhand/sky"
)

// Twilight finds its instants on a polynomial through four places of the Sun; at each of them the Sun's series
// must say the same altitude. 0.01″ is a hundredth of what the series itself is out.
func TestTwilightFindsTheAltitudesOfTheSunItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		site, noon := anySite(t), anyInstant(t)
		frame := sky.NewFrame(site, noon.Add(12*time.Hour), 0)
		w := frame.Twilight(noon)
		for _, c := range []struct {
			event sky.Event
			level sky.Angle
		}{{w.Sunset, sky.SunAtHorizon}, {w.CivilDusk, sky.CivilTwilight}, {w.NauticalDusk, sky.NauticalTwilight}, {w.AstronomicalDusk, sky.AstronomicalTwilight},
			{w.AstronomicalDawn, sky.AstronomicalTwilight}, {w.NauticalDawn, sky.NauticalTwilight}, {w.CivilDawn, sky.CivilTwilight}, {w.Sunrise, sky.SunAtHorizon}} {
			if !c.event.OK {
				continue
			}
			// The instant is found to 1 ms, in which the Sun moves by 0.015″.
			if off := (frame.Sun(c.event.At).Altitude - c.level).Abs(); off > 0.025*sky.Arcsecond {
				t.Fatalf("%v″ from %v° at %v", off.Arcseconds(), c.level.Degrees(), c.event.At)
			}
		}
	})
	assert.NotPanics(t, func() {
		sky.NewFrame(sky.Site{Latitude: 90 * sky.Degree}, time.Date(2026, 6, 21, 0, 0, 0, 0, time.UTC), 0).Twilight(time.Date(2026, 6, 20, 12, 0, 0, 0, time.UTC))
	})
}
