package kit_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
)

func problemOf(t *testing.T, document string) kit.Fault {
	t.Helper()
	_, err := kit.Read([]byte(document), "kit.toml")
	var faults kit.Faults
	require.ErrorAs(t, err, &faults)
	return faults[0]
}

func TestUnknownKeysBringTheNearestKnownOne(t *testing.T) {
	cases := []struct{ name, document, key, says string }{
		{"a letter missing", "[site]\nlattitude = 3", "site.lattitude", "did you mean site.latitude?"},
		{"two letters exchanged", "[site]\nnaem = 3", "site.naem", "did you mean site.name?"},
		{"the unit left out", "[derotator]\nmax = 3", "derotator.max", "did you mean derotator.max_deg?"},
		{"another unit", "[subs]\noverhead_min = 3", "subs.overhead_min", "did you mean subs.overhead_s?"},
		{"shortened", "[site]\nlat = 3", "site.lat", "did you mean site.latitude?"},
		{"in the wrong table", "[site]\npixel_um = 3", "site.pixel_um", "did you mean camera.pixel_um?"},
		{"outside its table", "longitude = 3", "longitude", "did you mean site.longitude?"},
		{"a capital", "[site]\nName = 'x'", "site.Name", "did you mean site.name?"},
		{"a table in the plural", "[sites]\nname = 'x'", "sites", "did you mean [site]?"},
		{"a list in the plural", "[[targets]]\nname = 'x'", "targets", "did you mean [[target]]?"},
		{"a list without its parent", "[[filter]]\nname = 'x'", "filter", "did you mean [[subs.filter]]?"},
		{"like nothing in the table", "[axis]\nquxquxqux = 1", "axis.quxquxqux", "[axis] takes tilt_deg, toward_deg, uncertainty_deg"},
		{"a table like nothing", "[quxquxqux]\na = 1", "quxquxqux", "a kit has [site], [axis]"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := kit.Read([]byte(c.document), "")
			var faults kit.Faults
			require.ErrorAs(t, err, &faults)
			for _, f := range faults {
				if f.Key == c.key {
					assert.Contains(t, f.Problem, c.says)
					return
				}
			}
			t.Fatalf("no fault for %s in:\n%v", c.key, err)
		})
	}
}

func TestALineThatIsNoTOMLIsOneFaultInOurWords(t *testing.T) {
	cases := []struct {
		name, line string
		says       string
	}{
		{"a decimal comma", "latitude = -31,95", "decimals take a point"},
		{"no quotes", "name = Saltbush Flat", "text must stand in double quotes"},
		{"an open quote", `name = "Saltbush`, "a double quote is missing"},
		{"no value", "name =", "the value after the = is missing"},
		{"no key", "= 3", "the key before the = is missing"},
		{"no assignment", "hello there", "every line is key = value"},
		{"an open bracket", "[axis", "a table's name stands between brackets"},
		{"two values on a line", "elevation_m = 3 dut1_s = 4", "write one key = value on a line"},
		{"bytes that are no UTF-8", "name = \"\xff\"", "write one key = value on a line"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := kit.Read(fmt.Appendf(nil, "[site]\n\n%s\nzone = \"UTC\"\n", c.line), "kit.toml")
			var faults kit.Faults
			require.ErrorAs(t, err, &faults)
			require.Len(t, faults, 1)
			assert.Equal(t, 3, faults[0].Line)
			assert.Contains(t, faults[0].Problem, c.says)
		})
	}
}

func TestAKeyGivenTwiceIsFoundWithBothLines(t *testing.T) {
	f := problemOf(t, "[site]\nname = 'a'\nlatitude = 3\nname = 'b'\n")
	assert.Equal(t, "kit.toml:4: site.name is given a second time (first in line 2); keep one of the two", f.Error())
	f = problemOf(t, "[site]\nname = 'a'\n[axis]\n[site]\nlatitude = 3\n")
	assert.Equal(t, "kit.toml:4: site is given a second time (first in line 1); keep one of the two", f.Error())
	f = problemOf(t, "[[target]]\nname = 'a'\n[target]\nname = 'b'\n")
	assert.Equal(t, 3, f.Line)
}

func TestContradictionsBetweenKeys(t *testing.T) {
	cases := []struct {
		name, key string
		value     any
		says      string // "" if it must pass
	}{
		{"a longitude with the wrong sign", "site.longitude", -141.5, "site.zone = \"Australia/Broken_Hill\" has noon at 06:56 by its clock, 18 h 56 min from the Sun's time at site.longitude = -141.5"},
		{"UTC anywhere", "site.zone", "UTC", ""},
		{"the zone of another continent", "site.zone", "Europe/Berlin", "from the Sun's time"},
		{"the computer's own zone", "site.zone", "Local", "no time zone that is known"},
		{"a nameless zone", "site.zone", "", "no time zone that is known"},
		{"pixels as large as a sheet of paper", "optics.focal_length_mm", 10.0, "too short for optics.aperture_mm"},
		{"guide lengths exchanged", "optics.guide_focal_length_mm", 20.0, "too short for optics.guide_aperture_mm"},
		{"a command that is not used", "alarm.command", []string{"play"}, ""},
		{"an empty command", "alarm.command", []string{}, "not right"},
		{"a blank in the command", "alarm.command", []string{""}, "every item must be text"},
		{"a command of numbers", "alarm.command", []int{1}, "every item must be text"},
		{"E on a latitude", "site.latitude", "31.95 E", "only N, S or a sign"},
		{"a sexagesimal site in the south", "site.latitude", `31°57'00"S`, ""},
		{"a sexagesimal site in the north", "site.latitude", "31 57 00 N", ""},
		{"a latitude beyond the pole as text", "site.latitude", "91 N", "out of range"},
		{"a star's name with a slip", "target.name", "Siriuss", "did you mean Sirius"},
		{"a right ascension alone", "target.ra", "05h38m42s", "stands alone"},
		{"a wide chip behind a short lens", "camera.width_px", 50000, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := kit.Read(withValue(t, c.key, c.value), "kit.toml")
			if c.says == "" {
				require.NoError(t, err)
				return
			}
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.says)
		})
	}
}

func TestZonesOfTheDateLinePass(t *testing.T) {
	// longitudes and offsets as the IANA time zone database has them, to a degree
	for zone, longitude := range map[string]float64{"Pacific/Kiritimati": -157.3, "America/Adak": 172.9, "Pacific/Chatham": -176.5,
		"Pacific/Tongatapu": -175.2, "Asia/Shanghai": 74, "America/Anchorage": -150, "Atlantic/Reykjavik": -24} {
		t.Run(zone, func(t *testing.T) {
			text := strings.NewReplacer("Europe/London", zone, `"4 15 W"`, fmt.Sprint(longitude)).Replace(least)
			_, err := kit.Read([]byte(text), "kit.toml")
			assert.NoError(t, err)
		})
	}
}
