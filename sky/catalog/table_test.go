package catalog_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"duskhand/sky"
)

// table reads a CSV file of testdata/catalog as one map per row.
func table(t testing.TB, name string) []map[string]string {
	t.Helper()
	file, err := os.Open("../../testdata/catalog/" + name)
	require.NoError(t, err)
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 1, "%s has no rows", name)
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, column := range lines[0] {
			row[column] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func number(t testing.TB, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

func at(raDeg, decDeg float64) sky.J2000 {
	return sky.J2000{RA: sky.Angle(raDeg) * sky.Degree, Dec: sky.Angle(decDeg) * sky.Degree}
}

func apart(a, b sky.J2000) sky.Angle { return a.Direction().Separation(b.Direction()) }
