package ask_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/ask"
)

// Each way in which a request can be wrong, by what its answer must say.
func TestRefusals(t *testing.T) {
	const site, star, at = `"site":{"lat_deg":-31.95,"lon_deg":141.5}`, `"star":{"ra_deg":84.7,"dec_deg":-69.1}`, `"utc":"2026-12-05T12:44:00Z"`
	const sight = site + `,` + star + `,` + at
	const derotator = `"derotator":{"min_deg":-16,"max_deg":16,"angle_deg":0,"sense":1}`
	tests := []struct{ name, request, want string }{
		{"no JSON", `{bad`, "write one object a line"},
		{"a list", `[1]`, "it is an array; give an object"},
		{"more behind the object", `{"ask":"object","name":"M 42"} 1`, "after top-level value"},
		{"nothing asked", `{}`, `"ask" is missing; give one of axis_fit`},
		{"null", `null`, `"ask" is missing`},
		{"a kind that is none", `{"ask":"horoscope"}`, `"horoscope", which is not known; give one of axis_fit`},
		{"a kind that is no text", `{"ask":1}`, `field "ask" holds a number; give text in quotes`},
		{"an unknown field", `{"ask":"object","name":"M 42","epoch":2000}`, `field "epoch" is not known`},
		{"an unknown field inside", `{"ask":"moon","site":{"lat":1},` + at + `}`, `field "lat" is not known`},
		{"a field twice", `{"ask":"object","name":"M 42","name":"M 31"}`, `field "name" is given twice; keep one of the two`},
		{"the question twice", `{"ask":"object","ask":"moon","name":"M 42"}`, `field "ask" is given twice`},
		{"a field twice inside", `{"ask":"place","site":{"lat_deg":1,"lat_deg":2}}`, `field "site.lat_deg" is given twice`},
		{"a field in capitals", `{"ask":"object","Name":"M 42"}`, `field "Name" is written "name"`},
		{"a field in capitals inside", `{"ask":"place","site":{"Lat_deg":1}}`, `field "Lat_deg" is written "lat_deg"`},
		{"the question in capitals", `{"ASK":"object","name":"M 42"}`, `"ask" is missing`},
		{"the id in capitals", `{"ask":"object","name":"M 42","ID":1}`, `field "ID" is written "id"`},
		{"a question that only begins like one", `{"ask":"object\u0073","name":"M 42"}`, `"objects", which is not known`},
		{"a line that breaks off", `{"ask":"object","name":"M 4`, `object: `},
		{"text for a number", `{"ask":"place","site":{"lat_deg":"31 S"}}`, `field "site.lat_deg" holds a string; give a number`},
		{"a number that is too large", `{"ask":"refraction","alt_deg":1e999,"pressure_hpa":1,"temp_c":1}`, `"alt_deg" holds 1e999`},
		{"an object for text", `{"ask":"object","name":{}}`, `give text in quotes`},
		{"a number for an object", `{"ask":"place","site":3}`, `"site" holds a number; give an object`},
		{"a half for a whole number", `{"ask":"run","derotator":{"sense":0.5}}`, `derotator.sense`},
		{"no name", `{"ask":"object"}`, `"name" is missing`},
		{"an unknown name", `{"ask":"object","name":"Tarantulla"}`, "Tarantula"},
		{"no site", `{"ask":"moon",` + at + `}`, `"site" is missing`},
		{"no latitude", `{"ask":"moon","site":{"lon_deg":1},` + at + `}`, `"site.lat_deg" is missing; give a number from -90 to 90`},
		{"no longitude", `{"ask":"moon","site":{"lat_deg":1},` + at + `}`, `"site.lon_deg" is missing`},
		{"latitude out of range", `{"ask":"moon","site":{"lat_deg":90.1,"lon_deg":0},` + at + `}`, `"site.lat_deg" is 90.1; give a number from -90 to 90`},
		{"longitude out of range", `{"ask":"moon","site":{"lat_deg":0,"lon_deg":361},` + at + `}`, `"site.lon_deg" is 361`},
		{"too high", `{"ask":"moon","site":{"lat_deg":0,"lon_deg":0,"elevation_m":1e5},` + at + `}`, `"site.elevation_m" is 100000`},
		{"no instant", `{"ask":"moon",` + site + `}`, `"utc" is ""; give a time as 2026-12-05T12:44:07Z`},
		{"an instant without zone", `{"ask":"moon",` + site + `,"utc":"2026-12-05T12:44:00"}`, `give a time as`},
		{"a year out of range", `{"ask":"moon",` + site + `,"utc":"1815-06-18T12:00:00Z"}`, "1950 to 2100"},
		{"no date", `{"ask":"twilight",` + site + `}`, `"date": "" is no date`},
		{"a date that is none", `{"ask":"moon_events",` + site + `,"date":"2026-02-30"}`, `"2026-02-30" is no date`},
		{"a date out of range", `{"ask":"twilight",` + site + `,"date":"2101-01-01"}`, "1950 to 2100"},
		{"a dut1 out of range", `{"ask":"twilight",` + site + `,"date":"2026-12-05","dut1_s":2}`, `"dut1_s" is 2`},
		{"a dut1 out of range, at an instant", `{"ask":"place",` + sight + `,"dut1_s":-2}`, `"dut1_s" is -2`},
		{"no star", `{"ask":"place",` + site + `,` + at + `}`, `"star" is missing`},
		{"no right ascension", `{"ask":"place",` + site + `,` + at + `,"star":{"dec_deg":1}}`, `"star.ra_deg" is missing`},
		{"no declination", `{"ask":"place",` + site + `,` + at + `,"star":{"ra_deg":1}}`, `"star.dec_deg" is missing`},
		{"declination out of range", `{"ask":"place",` + site + `,` + at + `,"star":{"ra_deg":1,"dec_deg":-91}}`, `"star.dec_deg" is -91`},
		{"a star that flies", `{"ask":"place",` + site + `,` + at + `,"star":{"ra_deg":1,"dec_deg":1,"pm_ra_mas_yr":1e6}}`, `"star.pm_ra_mas_yr" is 1e+06`},
		{"an axis that lies", `{"ask":"rotation",` + sight + `,"axis":{"tilt_deg":91}}`, `"axis.tilt_deg" is 91`},
		{"an axis that leans nowhere", `{"ask":"rotation",` + sight + `,"axis":{"tilt_deg":1,"toward_az_deg":400}}`, `"axis.toward_az_deg" is 400`},
		{"no altitude", `{"ask":"refraction","pressure_hpa":1010,"temp_c":10}`, `"alt_deg" is missing`},
		{"no pressure", `{"ask":"refraction","alt_deg":10,"temp_c":10}`, `"pressure_hpa" is missing`},
		{"no temperature", `{"ask":"refraction","alt_deg":10,"pressure_hpa":1010}`, `"temp_c" is missing`},
		{"colder than the Earth", `{"ask":"refraction","alt_deg":10,"pressure_hpa":1010,"temp_c":-273}`, `"temp_c" is -273`},
		{"no floor", `{"ask":"run",` + sight + `,` + derotator + `}`, `"floor_alt_deg" is missing`},
		{"no derotator", `{"ask":"run",` + sight + `,"floor_alt_deg":25}`, `"derotator" is missing`},
		{"no limit", `{"ask":"run",` + sight + `,"floor_alt_deg":25,"derotator":{"min_deg":1}}`, `"derotator.max_deg" is missing`},
		{"limits in the wrong order", `{"ask":"run",` + sight + `,"floor_alt_deg":25,"derotator":{"min_deg":170,"max_deg":-170,"angle_deg":0,"sense":1}}`, "give the smaller limit first"},
		{"an angle outside the travel", `{"ask":"run",` + sight + `,"floor_alt_deg":25,"derotator":{"min_deg":-16,"max_deg":16,"angle_deg":17,"sense":1}}`, `"derotator.angle_deg" is 17; give a number from -16 to 16`},
		{"no sense", `{"ask":"run",` + sight + `,"floor_alt_deg":25,"derotator":{"min_deg":-16,"max_deg":16,"angle_deg":0}}`, `"derotator.sense" must be 1 or -1`},
		{"a sense that is none", `{"ask":"run",` + sight + `,"floor_alt_deg":25,"derotator":{"min_deg":-16,"max_deg":16,"angle_deg":0,"sense":2}}`, `"derotator.sense" must be 1 or -1`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			line, ok := ask.New(nil).Answer([]byte(test.request))
			require.False(t, ok, "%s", line)
			var answer map[string]string
			require.NoError(t, json.Unmarshal(line, &answer), "%s", line)
			assert.Contains(t, answer["error"], test.want)
			assert.NotContains(t, answer["error"], "json:", "no words of the decoder")
			assert.False(t, strings.Contains(answer["error"], "sight.") || strings.Contains(answer["error"], "dayQuestion."), answer["error"])
		})
	}
}

// No field angle exists where the star stands at the mount's axis. The star is set there by asking for its
// place first and tilting the axis to it.
func TestStarAtTheAxisHasNoFieldAngle(t *testing.T) {
	const sight = `"site":{"lat_deg":-31.95,"lon_deg":141.5},"utc":"2026-12-05T12:44:00Z","star":{"ra_deg":84.7,"dec_deg":-69.1}`
	place := ask1(t, `{"ask":"place",`+sight+`}`)
	axis, err := json.Marshal(map[string]float64{"tilt_deg": 90 - place["alt_deg"].(float64), "toward_az_deg": place["az_deg"].(float64)})
	require.NoError(t, err)
	line, ok := ask.New(nil).Answer([]byte(`{"ask":"rotation",` + sight + `,"axis":` + string(axis) + `}`))
	require.False(t, ok, "%s", line)
	assert.Contains(t, string(line), "ask for another instant")
}

func TestKindsAreSorted(t *testing.T) {
	kinds := ask.New(nil).Kinds()
	assert.IsIncreasing(t, kinds)
	assert.Contains(t, kinds, "run")
}

// The kind may stand anywhere in the request, and be written with escapes.
func TestKindStandsAnywhere(t *testing.T) {
	for _, request := range []string{`{"name":"M 42","ask":"object"}`, ` { "ask" : "object" , "name":"M 42"}`, `{"ask":  "object","name":"M 42"}`, `{"ask":"\u006fbject","name":"M 42"}`} {
		assert.Equal(t, "M 42", ask1(t, request)["designation"], request)
	}
}

// What was asked before changes no answer, and one answerer serves all.
func TestAnswersDoNotDependOnTheOrder(t *testing.T) {
	const site = `"site":{"lat_deg":-31.95,"lon_deg":141.5}`
	requests := []string{
		`{"ask":"place",` + site + `,"utc":"2026-12-05T12:44:00Z","star":{"ra_deg":84.7,"dec_deg":-69.1}}`,
		`{"ask":"place",` + site + `,"utc":"2026-12-05T20:44:00Z","star":{"ra_deg":84.7,"dec_deg":-69.1}}`,
		`{"ask":"place","site":{"lat_deg":-31.95,"lon_deg":141.6},"utc":"2026-12-05T12:44:00Z","star":{"ra_deg":84.7,"dec_deg":-69.1},"dut1_s":0.5}`,
		`{"ask":"run",` + site + `,"utc":"2026-12-05T12:44:00Z","star":{"ra_deg":84.7,"dec_deg":-69.1},"floor_alt_deg":25,"derotator":{"min_deg":-16,"max_deg":16,"angle_deg":0,"sense":1}}`,
		`{"ask":"twilight",` + site + `,"date":"2026-12-05"}`, `{"ask":"moon",` + site + `,"utc":"2026-12-05T12:44:00Z"}`,
	}
	one := ask.New(nil)
	for _, i := range []int{5, 3, 1, 0, 4, 2, 0, 1, 2, 3, 4, 5} {
		fresh, ok := ask.New(nil).Answer([]byte(requests[i]))
		require.True(t, ok, "%s", fresh)
		kept, _ := one.Answer([]byte(requests[i]))
		assert.Equal(t, string(fresh), string(kept))
	}
}
