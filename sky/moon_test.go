package sky_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/sky"
)

func TestMoonAgreesWithERFA(t *testing.T) {
	var sight, place, distance, lit worst
	for _, r := range reference(t, "moon.csv") {
		moon := sky.NewFrame(r.site(), r.utc(), 0).Moon(r.utc())
		want := sky.Horizontal{Altitude: r.degrees("alt_deg"), Azimuth: r.degrees("az_deg")}
		sight.see(want.Direction().Separation(moon.Direction()).Arcseconds(), r)
		wantPlace := sky.OfDate{RA: r.degrees("app_ra_deg"), Dec: r.degrees("app_dec_deg")}
		place.see(wantPlace.Direction().Separation(moon.Place.Direction()).Arcseconds(), r)
		distance.see(abs(moon.DistanceKm-r.number("dist_km")), r)
		lit.see(abs(moon.Illuminated-r.number("illum_topo")), r)
	}
	t.Logf("largest: sight %.2f″, place %.2f″, distance %.1f km, lit share %.5f", sight.value, place.value, distance.value, lit.value)
	assert.Less(t, sight.value, 20.0, "″, row %s", sight.id)
	assert.Less(t, place.value, 20.0, "″, row %s", place.id)
	assert.Less(t, distance.value, 50.0, "km, which would move the parallax by 0.5″, row %s", distance.id)
	assert.Less(t, lit.value, 0.001, "row %s", lit.id)
}

func TestMoonEventsAgreeWithERFA(t *testing.T) {
	for _, r := range reference(t, "moon_events.csv") {
		noon, _ := r.instant("noon_utc")
		rise, set := sky.NewFrame(r.site(), noon.Add(12*time.Hour), 0).MoonEvents(noon)
		for column, event := range map[string]sky.Event{"moonrise_utc": rise, "moonset_utc": set} {
			want, happens := r.instant(column)
			require.Equal(t, happens, event.OK, "row %s: whether %s happens", r.fields["id"], column)
			if happens {
				// 10 s at the usual pace; the theory's 20″ where the Moon crawls along the horizon.
				require.Less(t, event.At.Sub(want).Abs(), max(10*time.Second, eventWithin(r, time.Second, 20*sky.Arcsecond)),
					"row %s, %s", r.fields["id"], column)
			}
		}
	}
}

// Meeus ex. 47.a: 1992 April 12, 0h TD: apparent 8h58m45.2s, +13°46′06″, distance 368 409.7 km,
// geocentric. A geocentric observer is not a Site; the parallax at the sub-lunar point is nought, so
// the place there is compared.
func TestMoonOfMeeus(t *testing.T) {
	at := time.Date(1992, 4, 12, 0, 0, 0, 0, time.UTC).Add(-69184 * time.Millisecond)
	want := sky.OfDate{RA: sky.Angle(8+58/60.+45.2/3600) * sky.Hour, Dec: (13 + 46/60. + 6/3600.) * sky.Degree}
	overhead := want.RA - sky.NewFrame(sky.Site{}, at, 0).SiderealTime(at)
	site := sky.Site{Latitude: want.Dec, Longitude: overhead.Signed()}
	moon := sky.NewFrame(site, at, 0).Moon(at)
	// 20″: on the ellipsoid the zenith misses the Earth's centre by up to 0.1°, a sixtieth of which shows.
	assert.Less(t, moon.Place.Direction().Separation(want.Direction()).Arcseconds(), 20.0)
	assert.InDelta(t, 368409.7-6378, moon.DistanceKm, 25, "less the Earth's radius, and its flattening")
}

func abs(x float64) float64 { return max(x, -x) }

func BenchmarkMoon(b *testing.B) {
	at := time.Date(2026, 12, 5, 12, 0, 0, 0, time.UTC)
	frame := sky.NewFrame(sky.Site{Latitude: -32 * sky.Degree}, at, 0)
	for range b.N {
		frame.Moon(at)
	}
}
