package plan_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"duskhand/sky"
)

// row is one line of a table under testdata/reference, read by column name; that folder's README.md says
// where the tables come from and how they were made.
type row map[string]string

func reference(t *testing.T, name string) []row {
	t.Helper()
	file, err := os.Open("../testdata/reference/" + name)
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
	require.GreaterOrEqual(t, len(rows), 100)
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
