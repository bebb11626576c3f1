package facts_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/say"
)

// Noon by the longitude alone: 12 h less four minutes for each degree east, and what the zone adds.
func TestPlaceFacts(t *testing.T) {
	cases := []struct {
		name     string
		lat, lon float64
		zone     string
		month    time.Month
		want     string
	}{
		{"Berlin in winter", 52.52, 13.4, "Europe/Berlin", time.January, "Polaris stands 53° high, and noon is at 12:06 by your clock"},
		{"Berlin in summer", 52.52, 13.4, "Europe/Berlin", time.July, "Polaris stands 53° high, and noon is at 13:06 by your clock"},
		{"Broken Hill", -31.95, 141.5, "Australia/Broken_Hill", time.July, "σ Octantis stands 32° high, and noon is at 12:04 by your clock"},
		{"Berlin with its numbers exchanged", 13.4, 52.52, "Europe/Berlin", time.January,
			"Polaris stands 13° high, and noon is at 09:30 by your clock, 2 h 30 min from what Europe/Berlin has"},
		{"Lisbon's longitude east of Greenwich, on its clock", 38.7, 47, "Europe/Lisbon", time.January,
			"Polaris stands 39° high, and noon is at 08:52 by your clock, 3 h 08 min from what Europe/Lisbon has; see that"},
		{"latitude and longitude of a place south of Madrid exchanged", -3.9, 40.2, "Europe/Madrid", time.January,
			"σ Octantis stands 4° high, and noon is at 10:19 by your clock, 1 h 41 min from what Europe/Madrid has"},
		{"a clock that shows UTC", -31.95, 141.5, "UTC", time.January, "σ Octantis stands 32° high, and noon is at 02:34 by your clock"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			zone, err := time.LoadLocation(c.zone)
			require.NoError(t, err)
			site := kit.Site{Place: sky.Site{Latitude: sky.Angle(c.lat) * sky.Degree, Longitude: sky.Angle(c.lon) * sky.Degree}, Zone: zone}
			assert.Contains(t, say.SeenThere(site, time.Date(2026, c.month, 1, 0, 0, 0, 0, time.UTC)), c.want)
		})
	}
}
