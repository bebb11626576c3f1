package sky_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/sky"
)

func TestParseSiteReadsEveryUsualNotation(t *testing.T) {
	// By hand, as in the tests of ParseAngle, but for those with a source.
	cases := []struct {
		name, text       string
		lat, lon, metres float64
	}{
		{"degrees and minutes with letters", "31°57'S 141°30'E", -31.95, 141.5, 0},
		{"decimals", "-31.95, 141.5", -31.95, 141.5, 0},
		{"decimals without a blank", "-31.95,141.5", -31.95, 141.5, 0},
		{"decimals and a blank alone", "-31.95 141.5", -31.95, 141.5, 0},
		{"a typographic minus", "−31.95, 141.5", -31.95, 141.5, 0},
		{"decimal commas", "−31,95 141,5", -31.95, 141.5, 0},
		{"decimal commas, parted by a semicolon", "-31,95; 141,5", -31.95, 141.5, 0},
		{"decimal commas, a comma and a blank, and metres", "-31,95, 141,50, 210 m", -31.95, 141.5, 210},
		{"decimal commas and letters", "31,95S 141,5E", -31.95, 141.5, 0},
		{"blanks within and letters behind", "31 57 00 S, 141 30 00 E", -31.95, 141.5, 0},
		{"letters in front", "S31.95 E141.5", -31.95, 141.5, 0},
		{"letters in front, with blanks", "S 31 57 00; E 141 30 00", -31.95, 141.5, 0},
		{"letters against each other", "31.95S141.5E", -31.95, 141.5, 0},
		{"longitude first: the letters decide", "141.5E 31.95S", -31.95, 141.5, 0},
		{"north and west", `N40°26'46" W79°58'56"`, 40.44611111111111, -79.98222222222222, 0},
		{"marks and a comma", "-31° 57', 141° 30'", -31.95, 141.5, 0},
		{"metres", "-31.95, 141.5, 210 m", -31.95, 141.5, 210},
		{"metres without a unit", "-31.95,141.5,210", -31.95, 141.5, 210},
		{"metres behind letters", "31°57'S 141°30'E, 210m", -31.95, 141.5, 210},
		{"whole degrees with signs", "-31, +141", -31, 141, 0},
		{"ISO 6709 in degrees", "-31.95+141.5/", -31.95, 141.5, 0},
		{"ISO 6709 without its stroke", "-31.95+141.5", -31.95, 141.5, 0},
		{"ISO 6709 in minutes with an elevation", "-3157+14130+210/", -31.95, 141.5, 210},
		{"ISO 6709 in seconds", "+404646.0-0735856.5/", 40.77944444444444, -73.98236111111111, 0},
		{"ISO 6709, Mount Everest, annex H's example", "+27.5916+086.5640+8850CRSWGS_84/", 27.5916, 86.564, 8850},
		{"ISO 6709, the South Pole", "-90+000+2800CRSWGS_84/", -90, 0, 2800},
		{"a geo URI, RFC 5870 section 6.1", "geo:13.4125,103.8667", 13.4125, 103.8667, 0},
		{"a geo URI with parameters, RFC 5870 section 6.2", "geo:48.2010,16.3695,183", 48.201, 16.3695, 183},
		{"a geo URI with its frame and uncertainty", "GEO:48.198634,16.371648;crs=wgs84;u=40", 48.198634, 16.371648, 0},
		// Field 10° by 20°, square 1° by 2°, subsquare 2.5′ by 5′; JN58td is Munich's, in every table of locators (memory).
		{"a locator", "JN58td", 48 + 3.5/24, 11.625, 0},
		{"a locator of eight", "jn58TD00", 48.125 + 0.5/240, 11 + 7.0/12 + 1.0/240, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := sky.ParseSite(c.text)
			require.NoError(t, err)
			assert.InDelta(t, c.lat, got.Latitude.Degrees(), writtenWithin, "latitude of %q", c.text)
			assert.InDelta(t, c.lon, got.Longitude.Degrees(), writtenWithin, "longitude of %q", c.text)
			assert.Equal(t, c.metres, got.ElevationMetres, "elevation of %q", c.text)
		})
	}
}

func TestParseSiteRefusesWhatItWouldHaveToGuess(t *testing.T) {
	cases := []struct{ name, text, says string }{
		{"nothing", "  ", "no site is written"},
		{"one number", "-31.95", "needs latitude and longitude"},
		{"a word", "Saltbush Flat", "places are not known by name"},
		{"a decimal comma, or a pair of whole degrees", "-31,95", "decimals with a point"},
		{"one decimal comma, or a pair and an elevation", "-31,95; 141", "decimals with a point"},
		{"commas that part four numbers", "-31,95,141,5", "decimals with a point"},
		{"blanks that part everything", "-31 57 00 141 30 00", "put a comma after it"},
		{"one letter", "31.95S, 141.5", "give both or none"},
		{"two latitudes", "31.95S 141.5N", "the letter of a latitude"},
		{"two longitudes", "31.95E 141.5W", "the letter of a longitude"},
		{"a sign and a letter", "-31.95S 141.5E", "both a sign and S"},
		{"three letters", "31.95S 141.5E N", "more than two letters"},
		{"longitude first without letters", "141.5, -31.95", "latitude stands first"},
		{"a latitude that is none", "-131.95, 141.5", "beyond ±90°"},
		{"a longitude counted to 360", "-31.95, 218.5", "beyond ±180°"},
		{"sixty minutes", "31°60'S 141°30'E", "60 is not below 60"},
		{"an elevation in the sky", "-31.95, 141.5, 35786 m", "not from −500 to 9000"},
		{"ISO 6709 with two digits of longitude", "-31.95+41.5/", "3 digits of degrees"},
		{"ISO 6709 with three digits of latitude", "-031.95+141.5/", "2 digits of degrees"},
		{"ISO 6709 with sixty minutes", "-3160+14130/", "60 is not below 60"},
		{"ISO 6709 of another frame", "-31.95+141.5+210CRSMOON/", "only WGS_84"},
		{"a stroke and no ISO 6709", "31.95/", "is written like -31.95+141.5/"},
		{"a geo URI of another frame", "geo:-31.95,141.5;crs=Moon-2011", "only wgs84"},
		{"a geo URI with a letter", "geo:31.95S,141.5E", "no number as a geo URI has them"},
		{"a geo URI with one number", "geo:-31.95", "a latitude, a longitude"},
		{"a locator that is too coarse", "QF08", "six characters or more"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := sky.ParseSite(c.text)
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.says)
			assert.Contains(t, err.Error(), "31°57'S 141°30'E", "what would be right")
		})
	}
}

// Whatever a program writes of a site is read back: in each notation, to the digits that it writes.
func TestEverySiteComesBackFromEveryNotation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Whole arcseconds, so that every notation can write them to its last digit.
		lat := rapid.IntRange(-90*3600, 90*3600).Draw(t, "latitude in arcseconds")
		lon := rapid.IntRange(-180*3600, 180*3600).Draw(t, "longitude in arcseconds")
		metres := rapid.IntRange(-500, 9000).Draw(t, "metres")
		for _, text := range notations(lat, lon, metres) {
			got, err := sky.ParseSite(text)
			require.NoError(t, err, "%q", text)
			// Ten decimals of a degree are written where it is decimal; half of the last, and the rounding of a float64.
			assert.InDelta(t, float64(lat)/3600, got.Latitude.Degrees(), writtenWithin, "latitude of %q", text)
			assert.InDelta(t, float64(lon)/3600, got.Longitude.Degrees(), writtenWithin, "longitude of %q", text)
			assert.Equal(t, float64(metres), got.ElevationMetres, "elevation of %q", text)
		}
	})
}

// notations writes a site in all ways.
func notations(lat, lon, metres int) []string {
	letters := func(seconds int, positive, negative string) (string, [3]int) {
		letter := positive
		if seconds < 0 {
			letter, seconds = negative, -seconds
		}
		return letter, [3]int{seconds / 3600, seconds / 60 % 60, seconds % 60}
	}
	ns, a := letters(lat, "N", "S")
	ew, b := letters(lon, "E", "W")
	sign := strings.NewReplacer("N", "+", "S", "-", "E", "+", "W", "-")
	return []string{
		fmt.Sprintf("%.10f, %.10f, %d", float64(lat)/3600, float64(lon)/3600, metres),
		fmt.Sprintf("%.10f,%.10f,%d m", float64(lat)/3600, float64(lon)/3600, metres),
		fmt.Sprintf(`%d°%d'%d"%s %d°%d'%d"%s, %d m`, a[0], a[1], a[2], ns, b[0], b[1], b[2], ew, metres),
		fmt.Sprintf("%s%d %d %d, %s%d %d %d, %d m", ew, b[0], b[1], b[2], ns, a[0], a[1], a[2], metres),
		fmt.Sprintf("%s%02d%02d%02d%s%03d%02d%02d%+d/", sign.Replace(ns), a[0], a[1], a[2], sign.Replace(ew), b[0], b[1], b[2], metres),
		fmt.Sprintf("%s%013.10f%s%014.10f%+dCRSWGS_84/", sign.Replace(ns), abs(float64(lat))/3600, sign.Replace(ew), abs(float64(lon))/3600, metres),
		fmt.Sprintf("geo:%.10f,%.10f,%d;crs=wgs84", float64(lat)/3600, float64(lon)/3600, metres),
	}
}

// A locator names a field; what lies in the field is no further from its middle than half of the field.
func TestALocatorIsNoFurtherOffThanHalfItsField(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.Float64Range(-90, 89.999).Draw(t, "latitude")
		lon := rapid.Float64Range(-180, 179.999).Draw(t, "longitude")
		got, err := sky.ParseSite(locator(lat, lon))
		require.NoError(t, err)
		assert.InDelta(t, lat, got.Latitude.Degrees(), 1.25/60+1e-9)
		assert.InDelta(t, lon, got.Longitude.Degrees(), 2.5/60+1e-9)
	})
}

// locator is the field of six characters that a place lies in.
func locator(lat, lon float64) string {
	x, y := int((lon+180)*12), int((lat+90)*24) // subsquares of 5′ by 2.5′
	return fmt.Sprintf("%c%c%d%d%c%c", 'A'+x/240, 'A'+y/240, x/24%10, y/24%10, 'a'+x%24, 'a'+y%24)
}

// Whatever is written, the answer is a place on the Earth or an error.
func TestParseSiteNeverGivesAPlaceThatIsNone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[-+0-9.,;NSEWgeo:°'" /AaRr]{0,30}`).Draw(t, "text")
		s, err := sky.ParseSite(text)
		if err != nil {
			return
		}
		assert.LessOrEqual(t, s.Latitude.Abs().Degrees(), 90+writtenWithin)
		assert.LessOrEqual(t, s.Longitude.Abs().Degrees(), 180+writtenWithin)
	})
}
