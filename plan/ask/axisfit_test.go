package ask_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/ask"
)

// tiltfit reads the table of axis fits; testdata/reference/README.md says where it comes from.
func tiltfit(t *testing.T) []map[string]string {
	t.Helper()
	file, err := os.Open("../../testdata/reference/tiltfit.csv")
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for _, line := range lines[1:] {
		r := map[string]string{}
		for i, column := range lines[0] {
			r[column] = line[i]
		}
		rows = append(rows, r)
	}
	require.Len(t, rows, 100)
	return rows
}

// axisFitRequest writes the question of one row; every second sight has the row's instant as its own.
func axisFitRequest(r map[string]string) string {
	var sights []string
	for i := 1; r[fmt.Sprintf("s%d_ra_deg", i)] != "" && i <= 3; i++ {
		s := func(column string) string { return r[fmt.Sprintf("s%d_%s_deg", i, column)] }
		own := ""
		if i%2 == 0 {
			own = fmt.Sprintf(`,"utc":%q`, r["utc"])
		}
		sights = append(sights, fmt.Sprintf(`{"star":{"ra_deg":%s,"dec_deg":%s},"axis_alt_deg":%s,"axis_az_deg":%s%s}`,
			s("ra"), s("dec"), s("mount_alt"), s("mount_az"), own))
	}
	return fmt.Sprintf(`{"ask":"axis_fit","id":%s,"site":{"lat_deg":%s,"lon_deg":%s,"elevation_m":%s},"utc":%q,"sights":[%s]}`,
		r["id"], r["lat_deg"], r["lon_deg"], r["elev_m"], r["utc"], strings.Join(sights, ","))
}

func TestAxisFitAnswersAsTheReference(t *testing.T) {
	for _, r := range tiltfit(t) {
		line, ok := ask.New(nil).Answer([]byte(axisFitRequest(r)))
		require.True(t, ok, "row %s: %s", r["id"], line)
		var got map[string]float64
		require.NoError(t, json.Unmarshal(line, &got))
		want := func(column string) float64 {
			value, err := strconv.ParseFloat(r[column], 64)
			require.NoError(t, err)
			return value
		}
		sin, cos := math.Sincos(got["toward_az_deg"] * math.Pi / 180)
		off := math.Hypot(got["tilt_deg"]*sin-want("fit_tilt_e_deg"), got["tilt_deg"]*cos-want("fit_tilt_n_deg"))
		assert.Less(t, off, 0.001, "row %s: tilt vector", r["id"]) // what is asked; it is 0.000003°
		zero := math.Abs(math.Remainder(got["azimuth_zero_deg"]-want("fit_offset_deg"), 360))
		assert.Less(t, zero, 0.001, "row %s: azimuth zero", r["id"])
		if want("noise_arcmin") == 0 {
			assert.Less(t, got["residual_arcmin"], 0.01, "row %s", r["id"]) // a tenth of the last digit of a place
		}
	}
}

// A mount that stands level and counts from north reads altitude and azimuth themselves.
func TestAxisFitOfALevelMount(t *testing.T) {
	const at = `"site":{"lat_deg":-31.95,"lon_deg":115.86},"utc":"2026-12-05T12:44:07Z"`
	var sights []string
	for _, star := range []string{`{"ra_deg":101.287,"dec_deg":-16.716}`, `{"ra_deg":24.429,"dec_deg":-57.237}`} { // Sirius, Achernar
		line, ok := ask.New(nil).Answer([]byte(`{"ask":"place",` + at + `,"star":` + star + `}`))
		require.True(t, ok, "%s", line)
		var place map[string]float64
		require.NoError(t, json.Unmarshal(line, &place))
		sights = append(sights, fmt.Sprintf(`{"star":%s,"axis_alt_deg":%v,"axis_az_deg":%v}`, star, place["alt_deg"], place["az_deg"]))
	}
	line, ok := ask.New(nil).Answer([]byte(`{"ask":"axis_fit",` + at + `,"sights":[` + strings.Join(sights, ",") + `]}`))
	require.True(t, ok, "%s", line)
	var got map[string]float64
	require.NoError(t, json.Unmarshal(line, &got))
	assert.InDelta(t, 0, got["tilt_deg"], 1e-9) // rounding of the arithmetic
	assert.Zero(t, got["toward_az_deg"])
	assert.InDelta(t, 0, got["azimuth_zero_deg"], 1e-9)
	assert.InDelta(t, 0, got["residual_arcmin"], 1e-9)
}

func TestAxisFitSaysWhatIsWrong(t *testing.T) {
	const sirius = `{"star":{"ra_deg":101.287,"dec_deg":-16.716},"axis_alt_deg":40,"axis_az_deg":80}`
	ask1 := func(sights string) string {
		return `{"ask":"axis_fit","site":{"lat_deg":-31.95,"lon_deg":115.86},"utc":"2026-12-05T13:30:00Z","sights":[` + sights + `]}`
	}
	for _, c := range []struct{ name, request, says string }{
		{"no sights", `{"ask":"axis_fit","site":{"lat_deg":-31.95,"lon_deg":115.86},"utc":"2026-12-05T13:30:00Z"}`, "there are no sights; centre two stars"},
		{"one sight", ask1(sirius), "there is one sight"},
		{"the same star twice", ask1(sirius + "," + sirius), "are the same star, or as good as; choose two stars 30° to 150° apart"},
		{"no star", ask1(sirius + `,{"axis_alt_deg":40,"axis_az_deg":80}`), `"sights", item 2: "star" is missing`},
		{"no readout", ask1(`{"star":{"ra_deg":101.287,"dec_deg":-16.716},"axis_alt_deg":40}`), `"sights", item 1: "axis_az_deg" is missing`},
		{"an altitude beyond the zenith", ask1(sirius + `,{"star":{"ra_deg":24.4,"dec_deg":-57.2},"axis_alt_deg":95,"axis_az_deg":80}`), `item 2: "axis_alt_deg" is 95; give a number from -90 to 90`},
		{"an instant that is none", ask1(sirius + `,{"star":{"ra_deg":24.4,"dec_deg":-57.2},"axis_alt_deg":5,"axis_az_deg":80,"utc":"dusk"}`), `item 2: "utc" is "dusk"; give a time as`},
		{"an instant of another night", ask1(sirius + `,{"star":{"ra_deg":24.4,"dec_deg":-57.2},"axis_alt_deg":5,"axis_az_deg":80,"utc":"2026-12-08T13:30:00Z"}`), "give sights of one night"},
		{"a field that is not known", ask1(`{"alt":1}`), `field "alt" is not known`},
		{"text for a number", ask1(`{"axis_alt_deg":"x"}`), `field "sights[0].axis_alt_deg" holds a string; give a number`},
		{"a star below the horizon", ask1(sirius + `,{"star":{"ra_deg":38,"dec_deg":89.26},"axis_alt_deg":5,"axis_az_deg":80}`), "below the horizon at 2026-12-05 13:30 UTC; check"},
	} {
		t.Run(c.name, func(t *testing.T) {
			line, ok := ask.New(nil).Answer([]byte(c.request))
			assert.False(t, ok)
			assert.Contains(t, strings.ReplaceAll(string(line), `\"`, `"`), c.says)
		})
	}
}
