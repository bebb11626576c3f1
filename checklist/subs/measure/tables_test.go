package measure_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/fits"
	"duskhand/checklist/subs/measure"
)

// row is one line of a table in testdata, see its README.md; radius holds half the flux.
type row struct{ x, y, flux, error, radius, flag float64 }

func table(t *testing.T, name string) []row {
	t.Helper()
	in, err := os.Open(filepath.Join("testdata", name))
	require.NoError(t, err)
	defer func() { require.NoError(t, in.Close()) }()
	lines, err := csv.NewReader(in).ReadAll()
	require.NoError(t, err)
	var rows []row
	for _, line := range lines[1:] {
		var v [7]float64
		for i, text := range line {
			v[i], err = strconv.ParseFloat(text, 64)
			require.NoError(t, err)
		}
		rows = append(rows, row{v[0], v[1], v[2], v[3], v[4], v[5]})
	}
	return rows
}

func field(t *testing.T) subs.Measured {
	t.Helper()
	frame, err := fits.Open(filepath.Join("testdata", "field.fits"))
	require.NoError(t, err)
	var pixels fits.Pixels
	require.NoError(t, frame.Fill(&pixels))
	require.NoError(t, frame.Close())
	got, err := measure.New(2, measure.Kept).Frame(&pixels)
	require.NoError(t, err)
	return got
}

// of returns the rows that are stars of the frame: the programs take its forty hot pixels for stars too.
func of(t *testing.T, rows []row) []row {
	truth := table(t, "truth.csv")
	return slices.DeleteFunc(rows, func(r row) bool {
		return !slices.ContainsFunc(truth, func(s row) bool { return math.Hypot(s.x-r.x, s.y-r.y) < 2 })
	})
}

func TestStarsOfSourceExtractorAreFound(t *testing.T) {
	got := field(t)
	sure, found := 0, 0
	for _, r := range of(t, table(t, "source-extractor.csv")) {
		if r.flux < 10*r.error {
			continue
		}
		sure++
		star := nearest(got.Stars, r.x, r.y)
		apart := math.Hypot(star.X-r.x, star.Y-r.y)
		if apart < 2 {
			found++
		}
		if r.flag == 0 {
			assert.Less(t, apart, 0.1, "at %.2f, %.2f", r.x, r.y)
		}
	}
	require.Greater(t, sure, 50)
	assert.GreaterOrEqual(t, found*100, sure*98, "%d of %d", found, sure)
}

func TestNothingButStarsIsFound(t *testing.T) {
	truth := table(t, "truth.csv")
	for _, s := range field(t).Stars {
		assert.True(t, slices.ContainsFunc(truth, func(r row) bool { return math.Hypot(s.X-r.x, s.Y-r.y) < 1 }), "%.1f, %.1f", s.X, s.Y)
	}
}

// sep measures the light as the pixels have it and spreads each evenly over its pixel, which adds a
// variance of 1/12 pixel² twice; the diameter's square grows by 8 ln 2 times that.
func TestCentroidsAndDiametersAgreeWithSep(t *testing.T) {
	got, truth := field(t), table(t, "truth.csv")
	// sep's circles take in what else lies in them, so only stars that are alone compare.
	alone := func(r row) bool {
		return !slices.ContainsFunc(truth, func(s row) bool {
			apart := math.Hypot(s.x-r.x, s.y-r.y)
			return apart > 2 && apart < 16
		})
	}
	compared := 0
	for _, r := range of(t, table(t, "sep.csv")) {
		star := nearest(got.Stars, r.x, r.y)
		if r.flag != 0 || !alone(r) || r.flux < 50*r.error || star.Saturated || math.Hypot(star.X-r.x, star.Y-r.y) > 1 {
			continue
		}
		compared++
		assert.Less(t, math.Hypot(star.X-r.x, star.Y-r.y), 0.05, "at %.2f, %.2f", r.x, r.y)
		want := math.Sqrt(4*r.radius*r.radius - 8*math.Ln2/6)
		assert.InEpsilon(t, want, star.HFD, 0.03, "at %.2f, %.2f", r.x, r.y)
		assert.InEpsilon(t, r.flux, star.Flux, 0.05, "at %.2f, %.2f", r.x, r.y)
	}
	assert.GreaterOrEqual(t, compared, 12)
	assert.InEpsilon(t, 3.2, got.HFD, 0.03, "what make.py drew")
}
