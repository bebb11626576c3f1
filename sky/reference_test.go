package sky_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"duskhand/sky"
)

// row is one line of a table under testdata/reference, read by column name. Where the tables come from
// and how they were made is in testdata/reference/README.md.
type row struct {
	t      *testing.T
	fields map[string]string
}

func reference(t *testing.T, name string) []row {
	t.Helper()
	file, err := os.Open("../testdata/reference/" + name)
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 100, "the table is there and whole")
	rows := make([]row, 0, len(lines)-1)
	for _, line := range lines[1:] {
		fields := map[string]string{}
		for i, column := range lines[0] {
			fields[column] = line[i]
		}
		rows = append(rows, row{t, fields})
	}
	return rows
}

func (r row) number(column string) float64 {
	r.t.Helper()
	text, ok := r.fields[column]
	require.True(r.t, ok, "no column %s", column)
	value, err := strconv.ParseFloat(text, 64)
	require.NoError(r.t, err, "row %s, column %s", r.fields["id"], column)
	return value
}

func (r row) degrees(column string) sky.Angle {
	r.t.Helper()
	return sky.Angle(r.number(column)) * sky.Degree
}

// instant returns a time and whether the field is filled.
func (r row) instant(column string) (time.Time, bool) {
	r.t.Helper()
	if r.fields[column] == "" {
		return time.Time{}, false
	}
	at, err := time.Parse(time.RFC3339Nano, r.fields[column])
	require.NoError(r.t, err)
	return at, true
}

func (r row) utc() time.Time {
	r.t.Helper()
	at, ok := r.instant("utc")
	require.True(r.t, ok)
	return at
}

func (r row) site() sky.Site {
	site := sky.Site{Latitude: r.degrees("lat_deg"), Longitude: r.degrees("lon_deg")}
	if _, ok := r.fields["elev_m"]; ok {
		site.ElevationMetres = r.number("elev_m")
	}
	return site
}

func (r row) star() sky.Star {
	star := sky.Star{Place: sky.J2000{RA: r.degrees("ra_deg"), Dec: r.degrees("dec_deg")}}
	if _, ok := r.fields["pmra_masyr"]; ok {
		star.Motion.RA = sky.Angle(r.number("pmra_masyr")) * sky.MilliarcsecondPerYear
		star.Motion.Dec = sky.Angle(r.number("pmdec_masyr")) * sky.MilliarcsecondPerYear
	}
	return star
}

// worst keeps the largest deviation of a table, so that a test can print what was reached.
type worst struct {
	value float64
	id    string
}

func (w *worst) see(value float64, r row) {
	if value > w.value {
		w.value, w.id = value, r.fields["id"]
	}
}
