package ask_test

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/ask"
)

// ask1 answers one request that must succeed.
func ask1(t *testing.T, request string) map[string]any {
	t.Helper()
	line, ok := ask.New(nil).Answer([]byte(request))
	require.True(t, ok, "%s: %s", request, line)
	var answer map[string]any
	require.NoError(t, json.Unmarshal(line, &answer), "%s", line)
	return answer
}

// One row of each table under testdata/reference, whose README.md gives sources and tolerances; package
// ui/command asks many more.
func TestEachKindIsAnswered(t *testing.T) {
	tests := []struct {
		name, request string
		want          map[string]float64
		within        map[string]float64
	}{
		{name: "place", // places.csv, row 1; 0.1″, in azimuth and right ascension wider by 1/cos
			request: `{"ask":"place","site":{"lat_deg":-51.52321,"lon_deg":100.61820,"elevation_m":1027},"utc":"2031-11-18T23:49:04.956Z",
				"star":{"ra_deg":204.2527293,"dec_deg":13.0770368,"pm_ra_mas_yr":-462.09,"pm_dec_mas_yr":-116.37}}`,
			want: map[string]float64{"alt_deg": 12.916358, "az_deg": 48.922588, "ra_date_deg": 204.637862, "dec_date_deg": 12.914485,
				"last_deg": 155.715806, "hour_angle_deg": -48.922055},
			within: map[string]float64{"alt_deg": 3e-5, "az_deg": 3e-5, "ra_date_deg": 3e-5, "dec_date_deg": 3e-5, "last_deg": 3e-5, "hour_angle_deg": 3e-5}},
		{name: "refraction", // refraction.csv, row 1; 0.5′ at 5°
			request: `{"ask":"refraction","alt_deg":5,"pressure_hpa":1010,"temp_c":10}`,
			want:    map[string]float64{"refraction_arcmin": 9.24365}, within: map[string]float64{"refraction_arcmin": 0.5}},
		{name: "rotation about a levelled axis", // rotation.csv, row 1; 0.5″/sin of the 10° to the axis
			request: `{"ask":"rotation","site":{"lat_deg":61.95122,"lon_deg":-31.58894,"elevation_m":2362},"utc":"2020-11-20T03:46:54.059Z",
				"star":{"ra_deg":98.9734302,"dec_deg":70.4063527,"pm_ra_mas_yr":-1.19,"pm_dec_mas_yr":-1.21}}`,
			want:   map[string]float64{"chi_deg": -137.675245, "rate_deg_per_h": -34.747597},
			within: map[string]float64{"chi_deg": 0.001, "rate_deg_per_h": 0.017}}, // 0.05 %
		{name: "rotation about a tilted axis", // rotation.csv, row 2
			request: `{"ask":"rotation","site":{"lat_deg":-33.02669,"lon_deg":91.59062,"elevation_m":1237},"utc":"2033-12-10T23:22:23.335Z",
				"star":{"ra_deg":123.6104608,"dec_deg":7.7346883},"axis":{"tilt_deg":1.036,"toward_az_deg":31.761},"dut1_s":0}`,
			want:   map[string]float64{"chi_deg": 139.239925, "rate_deg_per_h": -10.115813},
			within: map[string]float64{"chi_deg": 0.0004, "rate_deg_per_h": 0.005}},
		{name: "run", // limits.csv, row 2; 1 s
			request: `{"ask":"run","site":{"lat_deg":47.67196,"lon_deg":137.83887,"elevation_m":1395},"utc":"2027-01-02T14:56:15Z",
				"star":{"ra_deg":178.108364,"dec_deg":64.973049},"axis":{"tilt_deg":2.746,"toward_az_deg":78.221},
				"derotator":{"min_deg":25.3,"max_deg":103.9,"angle_deg":50.481,"sense":-1},"floor_alt_deg":10}`,
			want:   map[string]float64{"seconds": 11447.17, "best_start_deg": 25.3, "longest_s": 14577.07},
			within: map[string]float64{"seconds": 1, "best_start_deg": 0.01, "longest_s": 1}},
		{name: "moon", // moon.csv, row 1; 20″, 0.001
			request: `{"ask":"moon","site":{"lat_deg":11.22214,"lon_deg":92.23016,"elevation_m":590},"utc":"2038-09-23T10:57:20.732Z"}`,
			want: map[string]float64{"alt_deg": -42.99478, "az_deg": 316.08399, "ra_date_deg": 112.29180, "dec_date_deg": 22.58749,
				"illuminated": 0.33037, "distance_km": 392140.9},
			within: map[string]float64{"alt_deg": 0.0056, "az_deg": 0.0077, "ra_date_deg": 0.0061, "dec_date_deg": 0.0056, "illuminated": 0.001, "distance_km": 50}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			answer := ask1(t, test.request)
			for field, want := range test.want {
				assert.InDelta(t, want, answer[field], test.within[field], field)
			}
		})
	}
}

func TestRunSaysWhichLimitAndWhetherItReverses(t *testing.T) {
	answer := ask1(t, `{"ask":"run","site":{"lat_deg":47.67196,"lon_deg":137.83887},"utc":"2027-01-02T14:56:15Z","star":{"ra_deg":178.108364,"dec_deg":64.973049},
		"axis":{"tilt_deg":2.746,"toward_az_deg":78.221},"derotator":{"min_deg":25.3,"max_deg":103.9,"angle_deg":50.481,"sense":-1},"floor_alt_deg":10}`)
	assert.Equal(t, "max", answer["limit"]) // limits.csv, row 2
	assert.Equal(t, false, answer["reverses"])
	answer = ask1(t, `{"ask":"run","site":{"lat_deg":47.67196,"lon_deg":137.83887},"utc":"2027-01-02T14:56:15Z","star":{"ra_deg":178.108364,"dec_deg":-64.973049},
		"derotator":{"min_deg":0,"max_deg":90,"angle_deg":45,"sense":1},"floor_alt_deg":10}`)
	assert.Equal(t, "none", answer["limit"], "a star that is never up at this latitude")
	assert.Equal(t, 0.0, answer["seconds"])
}

func TestObjectIsFoundByAnyName(t *testing.T) {
	answer := ask1(t, `{"ask":"object","name":"tarantula  NEBULA"}`)
	assert.Equal(t, "NGC 2070", answer["id"])
	assert.Equal(t, "deep-sky", answer["kind"])
	assert.Equal(t, "Dor", answer["constellation"])
	assert.Contains(t, answer["names"], "30 Doradus")
	// 5h38m36s −69°05.7′ in the New General Catalogue's modern editions; the catalogue promises an arcminute.
	assert.InDelta(t, 84.65, answer["ra_deg"], 1.5/60/0.357) // over cos δ
	assert.InDelta(t, -69.095, answer["dec_deg"], 1.0/60)
	assert.Nil(t, answer["pm_ra_mas_yr"])
	assert.Nil(t, answer["pa_deg"], "not known is null")

	star := ask1(t, `{"ask":"object","name":"Sirius"}`)
	assert.Equal(t, "α CMa", star["id"])
	assert.Equal(t, "star", star["kind"])
	// Hipparcos: −546.01 and −1223.08 mas/yr, V −1.44.
	assert.InDelta(t, -546, star["pm_ra_mas_yr"], 15)
	assert.InDelta(t, -1223, star["pm_dec_mas_yr"], 15)
	assert.InDelta(t, -1.44, star["mag"], 0.05)
	assert.Nil(t, star["major_arcmin"])
}

func TestTwilightAndMoonEvents(t *testing.T) {
	happens := func(answer map[string]any, field, want string) {
		t.Helper()
		got, err := time.Parse(time.RFC3339, answer[field].(string))
		require.NoError(t, err)
		at, err := time.Parse(time.RFC3339, want)
		require.NoError(t, err)
		// 1 s and what 2″ of the Sun or 20″ of the Moon are worth at these rows' slowest 6.5 °/h or more.
		assert.InDelta(t, 0, got.Sub(at).Seconds(), 4, field)
	}
	sun := ask1(t, `{"ask":"twilight","site":{"lat_deg":-61.16362,"lon_deg":39.24089},"date":"2026-09-11"}`) // twilight.csv, row 1
	happens(sun, "sunset", "2026-09-11T14:54:31.7Z")
	happens(sun, "civil_dusk", "2026-09-11T15:37:33.3Z")
	happens(sun, "nautical_dusk", "2026-09-11T16:27:53.7Z")
	happens(sun, "astronomical_dusk", "2026-09-11T17:20:43.1Z")
	happens(sun, "astronomical_dawn", "2026-09-12T01:17:18.6Z")
	happens(sun, "nautical_dawn", "2026-09-12T02:10:01.0Z")
	happens(sun, "civil_dawn", "2026-09-12T03:00:12.1Z")
	happens(sun, "sunrise", "2026-09-12T03:43:02.8Z")
	moon := ask1(t, `{"ask":"moon_events","site":{"lat_deg":-22.40850,"lon_deg":-171.37403},"date":"2038-02-01"}`) // moon_events.csv, row 1
	happens(moon, "rise", "2038-02-02T15:46:20.6Z")
	happens(moon, "set", "2038-02-02T04:37:06.8Z")
	summer := ask1(t, `{"ask":"twilight","site":{"lat_deg":70,"lon_deg":25},"date":"2026-06-21"}`)
	for field, at := range summer {
		assert.Nil(t, at, "%s: the Sun does not set at 70° north at midsummer", field)
	}
}

// The id comes back as it was written: any JSON, digits and spaces kept.
func TestIDComesBackUnchanged(t *testing.T) {
	for _, id := range []string{`1`, `-0.50`, `1e400`, `12345678901234567890123`, `"x"`, `""`, `"é\u00e9<&>"`, `true`, `false`, `null`, `[]`, `[1, "a", {"b":null}]`, `{"a" : [1.0]}`} {
		for name, request := range map[string]string{"answer": `{"ask":"object","name":"M 42"`, "error": `{"ask":"object","name":"M 42x"`, "no kind": `{"ask":1`} {
			line, _ := ask.New(nil).Answer([]byte(request + `,"id":` + id + `}`))
			var answer struct{ ID json.RawMessage }
			require.NoError(t, json.Unmarshal(line, &answer), "%s", line)
			assert.Equal(t, id, string(answer.ID), name)
		}
	}
}

// A request's id and an object's must not both be "id": a reader would keep one of them only.
func TestIDOfAnObjectGivesWayToTheRequests(t *testing.T) {
	answer := ask1(t, `{"ask":"object","name":"M 42","id":7}`)
	assert.Equal(t, 7.0, answer["id"])
	assert.Equal(t, "M 42", answer["designation"])
	answer = ask1(t, `{"ask":"object","name":"M 42"}`)
	assert.Equal(t, "M 42", answer["id"])
	assert.Equal(t, "M 42", answer["designation"])
}

func TestNoIDGivesNone(t *testing.T) {
	line, ok := ask.New(nil).Answer([]byte(`{"ask":"refraction","alt_deg":45,"pressure_hpa":1010,"temp_c":10}`))
	require.True(t, ok)
	assert.NotContains(t, string(line), `"id"`)
}
