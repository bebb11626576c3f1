package command_test

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/command"
)

// The tables of testdata/reference, whose README.md says where they come from and within what a careful
// implementation meets them. The engine has its own tests on all rows; these go the way of a person with a
// pipe, through JSON there and back.

const rowsOfEach = 60

type row map[string]string

func reference(t *testing.T, name string) []row {
	t.Helper()
	file, err := os.Open("../../testdata/reference/" + name + ".csv")
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	var rows []row
	for _, line := range lines[1 : rowsOfEach+1] {
		r := row{}
		for i, column := range lines[0] {
			r[column] = line[i]
		}
		rows = append(rows, r)
	}
	return rows
}

func (r row) number(t *testing.T, column string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(r[column], 64)
	require.NoError(t, err, "row %s, column %s", r["id"], column)
	return value
}

// request writes one line that asks for kind, with the row's id.
func request(r row, kind string, fields map[string]any) string {
	fields["ask"], fields["id"] = kind, r["id"]
	text, err := json.Marshal(fields)
	if err != nil {
		panic(err) // texts and numbers of ours always can be written
	}
	return string(text) + "\n"
}

func num(r row, column string) json.Number { return json.Number(r[column]) }

func siteOf(r row) map[string]any {
	site := map[string]any{"lat_deg": num(r, "lat_deg"), "lon_deg": num(r, "lon_deg")}
	if r["elev_m"] != "" {
		site["elevation_m"] = num(r, "elev_m")
	}
	return site
}

func starOf(r row) map[string]any {
	star := map[string]any{"ra_deg": num(r, "ra_deg"), "dec_deg": num(r, "dec_deg")}
	if r["pmra_masyr"] != "" {
		star["pm_ra_mas_yr"], star["pm_dec_mas_yr"] = num(r, "pmra_masyr"), num(r, "pmdec_masyr")
	}
	return star
}

func axisOf(r row) map[string]any {
	return map[string]any{"tilt_deg": num(r, "tilt_deg"), "toward_az_deg": num(r, "tilt_az_deg")}
}

// answers asks all rows in one stream and returns the answers beside them.
func answers(t *testing.T, rows []row, ask func(row) string) []map[string]any {
	t.Helper()
	var lines strings.Builder
	for _, r := range rows {
		lines.WriteString(ask(r))
	}
	s := newShell(t)
	require.Equal(t, command.Done, s.run(lines.String(), "compute"), s.out)
	var all []map[string]any
	for _, line := range strings.Split(strings.TrimSpace(s.out), "\n") {
		var answer map[string]any
		require.NoError(t, json.Unmarshal([]byte(line), &answer), line)
		all = append(all, answer)
	}
	require.Len(t, all, len(rows))
	for i := range rows {
		require.Equal(t, rows[i]["id"], all[i]["id"], "answers come in order")
	}
	return all
}

// apart returns the angle between two directions in arcseconds.
func apart(lonA, latA, lonB, latB float64) float64 {
	rad := math.Pi / 180
	half := func(x float64) float64 { return math.Pow(math.Sin(x*rad/2), 2) }
	h := half(latA-latB) + math.Cos(latA*rad)*math.Cos(latB*rad)*half(lonA-lonB)
	return 2 * math.Asin(math.Sqrt(h)) / rad * 3600
}

func turned(a, b float64) float64 { return math.Abs(math.Remainder(a-b, 360)) }

func TestComputePlaceAgainstReference(t *testing.T) {
	rows := reference(t, "places")
	for i, got := range answers(t, rows, func(r row) string {
		return request(r, "place", map[string]any{"site": siteOf(r), "utc": r["utc"], "star": starOf(r)})
	}) {
		r, value := rows[i], func(name string) float64 { return got[name].(float64) }
		const within = 0.1 // arcseconds: the README's bound for a theory with diurnal aberration
		assert.Less(t, apart(value("az_deg"), value("alt_deg"), r.number(t, "az_deg"), r.number(t, "alt_deg")), within, "row %s", r["id"])
		assert.Less(t, apart(value("ra_date_deg"), value("dec_date_deg"), r.number(t, "app_ra_deg"), r.number(t, "app_dec_deg")), within, "row %s", r["id"])
		assert.Less(t, turned(value("last_deg"), r.number(t, "last_deg"))*3600, within, "row %s", r["id"])
		cos := math.Cos(r.number(t, "app_dec_deg") * math.Pi / 180)
		assert.Less(t, turned(value("hour_angle_deg"), r.number(t, "ha_deg"))*3600*cos, within, "row %s", r["id"])
	}
}

func TestComputeRefractionAgainstReference(t *testing.T) {
	rows := reference(t, "refraction")
	for i, got := range answers(t, rows, func(r row) string {
		return request(r, "refraction", map[string]any{"alt_deg": num(r, "alt_true_deg"), "pressure_hpa": num(r, "pressure_hpa"), "temp_c": num(r, "temp_c")})
	}) {
		within := 0.5 // arcminutes, by the README: 0.2 above 15°, 0.5 below
		if rows[i].number(t, "alt_true_deg") > 15 {
			within = 0.2
		}
		assert.InDelta(t, rows[i].number(t, "refraction_arcmin"), got["refraction_arcmin"], within, "row %s", rows[i]["id"])
	}
}

func TestComputeRotationAgainstReference(t *testing.T) {
	rows := reference(t, "rotation")
	for i, got := range answers(t, rows, func(r row) string {
		return request(r, "rotation", map[string]any{"site": siteOf(r), "utc": r["utc"], "star": starOf(r), "axis": axisOf(r)})
	}) {
		r := rows[i]
		sine := func(column string) float64 { return math.Abs(math.Sin(r.number(t, column) * math.Pi / 180)) }
		within := 0.5 / 3600 * (1/sine("dist_pole_deg") + 1/sine("dist_m_deg")) // the README's leverage of 0.5″
		assert.Less(t, turned(got["chi_deg"].(float64), r.number(t, "chi_deg")), within, "row %s", r["id"])
		rate := r.number(t, "rate_inst_deg_per_h")
		assert.InDelta(t, rate, got["rate_deg_per_h"], max(0.0005*math.Abs(rate), 0.001), "row %s: the README's 0.05 %% or 0.001 °/h", r["id"])
	}
}

func TestComputeRunAgainstReference(t *testing.T) {
	rows := reference(t, "limits")
	for i, got := range answers(t, rows, func(r row) string {
		derotator := map[string]any{"min_deg": num(r, "min_deg"), "max_deg": num(r, "max_deg"), "angle_deg": num(r, "mech0_deg"), "sense": num(r, "sense")}
		return request(r, "run", map[string]any{"site": siteOf(r), "utc": r["utc"], "star": starOf(r), "axis": axisOf(r), "derotator": derotator, "floor_alt_deg": 10})
	}) {
		r := rows[i]
		assert.Equal(t, r["limit"], got["limit"], "row %s", r["id"])
		assert.InDelta(t, r.number(t, "seconds"), got["seconds"], 1, "row %s: the README's 1 s", r["id"])
		assert.Equal(t, r["reversal"] == "1", got["reverses"], "row %s", r["id"])
		assert.InDelta(t, r.number(t, "longest_run_s"), got["longest_s"], 1, "row %s", r["id"])
		start := got["best_start_deg"].(float64) // any start in the table's interval is as good; 0.01° for its rounding and 1 s at 36 °/h
		assert.True(t, start > r.number(t, "best_start_lo_deg")-0.01 && start < r.number(t, "best_start_hi_deg")+0.01, "row %s: %g", r["id"], start)
	}
}

// happens compares an event with a table's field, which is empty when it does not happen.
func happens(t *testing.T, r row, column string, got any, within float64) {
	t.Helper()
	if r[column] == "" {
		assert.Nil(t, got, "row %s, %s", r["id"], column)
		return
	}
	want, err := time.Parse(time.RFC3339, r[column])
	require.NoError(t, err)
	require.NotNil(t, got, "row %s, %s", r["id"], column)
	at, err := time.Parse(time.RFC3339, got.(string))
	require.NoError(t, err)
	assert.InDelta(t, 0, at.Sub(want).Seconds(), within, "row %s, %s", r["id"], column)
}

// slowest returns the smallest rate at the row's events, in degrees an hour, which is arcseconds a second.
func slowest(t *testing.T, r row) float64 {
	if r["slowest_deg_per_h"] == "" { // no event at all
		return 15
	}
	return r.number(t, "slowest_deg_per_h")
}

func TestComputeTwilightAgainstReference(t *testing.T) {
	rows := reference(t, "twilight")
	for i, got := range answers(t, rows, func(r row) string {
		return request(r, "twilight", map[string]any{"site": siteOf(r), "date": r["date"]})
	}) {
		r := rows[i]
		within := 1 + 2/slowest(t, r) // the README's 1 s + e/rate; the Sun here is good to 2″
		for column, field := range map[string]string{"sunset_utc": "sunset", "civil_dusk_utc": "civil_dusk", "nautical_dusk_utc": "nautical_dusk",
			"astro_dusk_utc": "astronomical_dusk", "astro_dawn_utc": "astronomical_dawn", "nautical_dawn_utc": "nautical_dawn",
			"civil_dawn_utc": "civil_dawn", "sunrise_utc": "sunrise"} {
			happens(t, r, column, got[field], within)
		}
	}
}

func TestComputeMoonAgainstReference(t *testing.T) {
	rows := reference(t, "moon")
	for i, got := range answers(t, rows, func(r row) string {
		return request(r, "moon", map[string]any{"site": siteOf(r), "utc": r["utc"]})
	}) {
		r, value := rows[i], func(name string) float64 { return got[name].(float64) }
		const within = 20 // arcseconds, as the README has it
		assert.Less(t, apart(value("az_deg"), value("alt_deg"), r.number(t, "az_deg"), r.number(t, "alt_deg")), float64(within), "row %s", r["id"])
		assert.Less(t, apart(value("ra_date_deg"), value("dec_date_deg"), r.number(t, "app_ra_deg"), r.number(t, "app_dec_deg")), float64(within), "row %s", r["id"])
		assert.InDelta(t, r.number(t, "illum_topo"), value("illuminated"), 0.001, "row %s", r["id"])
		assert.InDelta(t, r.number(t, "dist_km"), value("distance_km"), 50, "row %s: 20″ of parallax are some 40 km", r["id"])
	}
}

func TestComputeMoonEventsAgainstReference(t *testing.T) {
	rows := reference(t, "moon_events")
	for i, got := range answers(t, rows, func(r row) string {
		return request(r, "moon_events", map[string]any{"site": siteOf(r), "date": r["date"]})
	}) {
		within := 1 + 20/slowest(t, rows[i]) // 1 s + e/rate, for a Moon good to 20″
		happens(t, rows[i], "moonrise_utc", got["rise"], within)
		happens(t, rows[i], "moonset_utc", got["set"], within)
	}
}
