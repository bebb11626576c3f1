package framing_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// row is one line of a table under testdata, read by column name; README.md there says how it was made.
type row map[string]string

func table(t *testing.T, name string, atLeast int) []row {
	t.Helper()
	file, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	var rows []row
	for _, line := range lines[1:] {
		r := row{}
		for i, column := range lines[0] {
			r[column] = line[i]
		}
		rows = append(rows, r)
	}
	require.GreaterOrEqual(t, len(rows), atLeast)
	return rows
}

func (r row) number(t *testing.T, column string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(r[column], 64)
	require.NoError(t, err, "row %s, column %s", r["id"], column)
	return value
}

func (r row) degrees(t *testing.T, column string) sky.Angle {
	return sky.Angle(r.number(t, column)) * sky.Degree
}

// anyAngle draws an angle in degrees.
func anyAngle(t *rapid.T, name string, low, high float64) sky.Angle {
	return sky.Angle(rapid.Float64Range(low, high).Draw(t, name)) * sky.Degree
}

func anyPlace(t *rapid.T) sky.J2000 {
	return sky.J2000{RA: anyAngle(t, "ra", 0, 360), Dec: anyAngle(t, "dec", -90, 90)}
}

// anySensor draws fields from a few minutes to some 50° across.
func anySensor(t *rapid.T) (s sensor) {
	s.Width, s.Height = rapid.IntRange(16, 9000).Draw(t, "width"), rapid.IntRange(16, 9000).Draw(t, "height")
	s.PerPixel = sky.Angle(rapid.Float64Range(0.1, 20).Draw(t, "scale")) * sky.Arcsecond
	s.Mirrored = rapid.Bool().Draw(t, "mirrored")
	return s
}

var exampleDate = plan.Date{Year: 2026, Month: time.December, Day: 5}

func exampleNight() *plan.Night { return plan.NewNight(kit.Example(), exampleDate) }

// exampleCourse is NGC 2070 in the example night, with the axis known exactly unless the kit is changed.
func exampleCourse(change func(*kit.Kit)) *plan.Course {
	k := kit.Example()
	change(&k)
	return plan.NewNight(k, exampleDate).Course(k.Targets[0], k.Axis)
}
