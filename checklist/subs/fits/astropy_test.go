package fits_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/fits"
)

// The frames and pixels.csv are astropy's, see testdata/README.md.
func TestFramesOfAstropy(t *testing.T) { checkPixels(t, "pixels.csv", 12*6, 1e-7) } // half a step of 24 bits is 6e-8

// checkPixels compares the pixels of frames with a table of what their writer reads back.
func checkPixels(t *testing.T, table string, count int, relative float64) {
	t.Helper()
	file, err := os.Open(filepath.Join("testdata", table))
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+count)
	var pixels fits.Pixels
	for _, row := range rows[1:] {
		frame := opened(t, row[0])
		require.NoError(t, frame.Fill(&pixels), row[0])
		want, err := strconv.ParseFloat(row[3], 64)
		require.NoError(t, err)
		var got [1]float32
		pixels.Span(whole(t, row[1]), whole(t, row[2]), got[:])
		if math.IsNaN(want) {
			assert.True(t, math.IsNaN(float64(got[0])), "%v: %v", row, got)
			continue
		}
		assert.InDelta(t, want, float64(got[0]), math.Abs(want)*relative, "%v", row)
	}
}

func TestHeaderOfAstropy(t *testing.T) {
	start, exposure, celsius := time.Date(2026, 10, 3, 21, 15, 30, 250_000_000, time.UTC), time.Minute, -10.5
	want := subs.Header{
		Start: &start, Exposure: &exposure, Filter: "Ha 3nm", Object: "NGC 2070", Kind: subs.Light,
		SensorC: &celsius, BinX: 2, BinY: 2, Width: 17, Height: 11,
	}
	for _, name := range []string{"uint8", "int16", "uint16", "int32", "uint32", "int64", "float32", "float64", "planes", "scaled"} {
		frame := opened(t, name+".fits")
		assert.Equal(t, want, frame.Header, name)
		assert.Empty(t, frame.Remarks, name)
	}
	want.Filter = "OIII" // the image's own; the rest is the primary header's
	assert.Equal(t, want, opened(t, "extension.fits").Header)
	want.Filter = "'quoted' / not a comment"
	want.Object = "O'Brien's field, which has a long name which has a long name which has a long name " +
		"which has a long name which has a long name and ends"
	assert.Equal(t, want, opened(t, "words.fits").Header)
}

func TestTopAndStepOfTheScale(t *testing.T) {
	for _, c := range []struct {
		name      string
		top, step float64
	}{
		{"uint8", 255, 1},
		{"int16", 32767, 1},
		{"uint16", 65535, 1},
		{"uint32", 1<<32 - 1, 1},
		{"float32", math.Inf(1), 0},
		{"scaled", 100 + 0.5*32767, 0.5},
	} {
		var pixels fits.Pixels
		require.NoError(t, opened(t, c.name+".fits").Fill(&pixels))
		assert.Equal(t, c.top, pixels.Top(), c.name)
		assert.Equal(t, c.step, pixels.Step(), c.name)
	}
}

func opened(t *testing.T, name string) *fits.Frame {
	t.Helper()
	frame, err := fits.Open(filepath.Join("testdata", name))
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, frame.Close()) })
	return frame
}

func whole(t *testing.T, text string) int {
	t.Helper()
	n, err := strconv.Atoi(text)
	require.NoError(t, err)
	return n
}
