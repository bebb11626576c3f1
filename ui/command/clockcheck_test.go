package command

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/clock"
)

func TestTheComputersClockIsChecked(t *testing.T) {
	now := time.Date(2026, 12, 5, 10, 0, 0, 0, time.UTC)
	site := kit.Example().Site // 141.5° E, 9.4 h; the zone 10.5 h ahead in December
	for name, c := range map[string]struct {
		machine clock.Machine
		fits    bool
		zone    string
		right   string
		line    string
	}{
		"as it should be": {clock.Machine{Zone: site.Zone, Known: true, Synchronised: true}, true, "as the kit's", "is synchronised",
			"the computer's zone is the kit's; its clock is synchronised"},
		"of a neighbour": {clock.Machine{Zone: time.FixedZone("AEST", 36000), Known: true}, true,
			"AEST, UTC+10:00, where the kit has UTC+10:30", "NOT synchronised", "the computer's zone, AEST, is not the kit's; its clock is NOT synchronised"},
		"still of home": {clock.Machine{Zone: time.FixedZone("CET", 3600)}, false, "8 h 00 min from the Sun's time at the site", "does not say",
			"the computer's zone, CET, is 8 h 00 min off the Sun; is its clock right?"},
		"in universal time": {clock.Machine{Zone: time.UTC}, true, "UTC, UTC+00:00, where the kit has UTC+10:30", "does not say",
			"the computer's zone, UTC, is not the kit's; is its clock right?"},
		"of the other hemisphere": {clock.Machine{Zone: time.FixedZone("EST", -5*3600)}, false, "14 h 00 min from the Sun's time", "does not say",
			"the computer's zone, EST, is 14 h 00 min off the Sun; is its clock right?"},
	} {
		check := checkClock(c.machine, site, now)
		assert.Equal(t, c.fits, check.zoneFits(), name)
		rows := check.rows()
		require.Len(t, rows, 2, name)
		assert.Contains(t, rows[0].text, c.zone, name)
		assert.Contains(t, rows[1].text, c.right, name)
		assert.Equal(t, c.line, check.line(), name)
		assert.LessOrEqual(t, len(check.line()), 78, "it stands in a row of a small window")
		assert.Contains(t, clockSummary(check), "the computer's clock, its zone: ", name)
	}
	assert.Empty(t, checkClock(clock.Machine{}, site, now).rows(), "a replay has no machine")
	assert.Empty(t, checkClock(clock.Machine{}, site, now).line())
	site.Place.Longitude = -179 * sky.Degree // Tonga and Samoa keep the date of the west
	assert.True(t, checkClock(clock.Machine{Zone: time.FixedZone("", 13*3600)}, site, now).zoneFits())
}

func TestNotationsOfAPlace(t *testing.T) {
	for degrees, want := range map[float64]coordinate{
		-31.95:      {"31°57′00″ S", "31°57.000′ S", "31.95000° S", -31.95},
		0:           {"00°00′00″ N", "00°00.000′ N", "0.00000° N", 0},
		51.47778:    {"51°28′40″ N", "51°28.667′ N", "51.47778° N", 51.47778}, // Greenwich, 51°28′40″
		9.999999:    {"10°00′00″ N", "10°00.000′ N", "10.00000° N", 10},       // never 9°60′
		-0.00833333: {"00°00′30″ S", "00°00.500′ S", "0.00833° S", -0.00833},
	} {
		assert.Equal(t, want, coordinateOf(sky.Angle(degrees)*sky.Degree, words.Latitudes()))
	}
}
