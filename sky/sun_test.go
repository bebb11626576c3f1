package sky_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/sky"
)

// eventWithin allows base plus what an error of the altitude is worth at the slowest crossing of the row.
func eventWithin(r row, base time.Duration, altitude sky.Angle) time.Duration {
	slowest := r.number("slowest_deg_per_h")
	return base + time.Duration(altitude.Degrees()/slowest*float64(time.Hour))
}

func TestTwilightAgreesWithERFA(t *testing.T) {
	var worstCase worst
	for _, r := range reference(t, "twilight.csv") {
		noon, _ := r.instant("noon_utc")
		date, err := time.Parse(time.DateOnly, r.fields["date"])
		require.NoError(t, err)
		require.WithinDuration(t, noon, sky.SolarNoon(r.site(), date.Year(), date.Month(), date.Day()), time.Second)
		got := sky.NewFrame(r.site(), noon.Add(12*time.Hour), 0).Twilight(noon)
		for column, event := range map[string]sky.Event{
			"sunset_utc": got.Sunset, "civil_dusk_utc": got.CivilDusk, "nautical_dusk_utc": got.NauticalDusk,
			"astro_dusk_utc": got.AstronomicalDusk, "astro_dawn_utc": got.AstronomicalDawn,
			"nautical_dawn_utc": got.NauticalDawn, "civil_dawn_utc": got.CivilDawn, "sunrise_utc": got.Sunrise,
		} {
			want, happens := r.instant(column)
			require.Equal(t, happens, event.OK, "row %s: whether %s happens", r.fields["id"], column)
			if !happens {
				continue
			}
			off := event.At.Sub(want).Abs()
			// 5 s, and what 10″ of the Sun are worth where it crosses slowly.
			require.Less(t, off, eventWithin(r, 5*time.Second, 10*sky.Arcsecond), "row %s, %s", r.fields["id"], column)
			worstCase.see(off.Seconds()*r.number("slowest_deg_per_h")/15, r)
		}
	}
	t.Logf("largest: %.2f″ of altitude (row %s)", worstCase.value*15, worstCase.id)
	assert.Less(t, worstCase.value*15, 4.0, "2″ of the theory and the table's rounding to 0.1 s")
}

// The Sun of Meeus ex. 25.b: 1992 October 13, 0h TD, apparent 13h13m30.749s, −7°47′01.74″ with the
// complete VSOP87.
func TestSunOfMeeus(t *testing.T) {
	at := time.Date(1992, 10, 13, 0, 0, 0, 0, time.UTC).Add(-69184 * time.Millisecond)
	want := sky.OfDate{RA: sky.Angle(13+13/60.+30.749/3600) * sky.Hour, Dec: -(7 + 47/60. + 1.74/3600) * sky.Degree}
	got := sky.NewFrame(sky.Site{}, at, 0).SunPlace(at)
	assert.Less(t, got.Direction().Separation(want.Direction()).Arcseconds(), 2.0)
}

func BenchmarkTwilight(b *testing.B) {
	site := sky.Site{Latitude: -32 * sky.Degree, Longitude: 141.5 * sky.Degree}
	noon := sky.SolarNoon(site, 2026, 12, 5)
	frame := sky.NewFrame(site, noon.Add(12*time.Hour), 0)
	for range b.N {
		frame.Twilight(noon)
	}
}
