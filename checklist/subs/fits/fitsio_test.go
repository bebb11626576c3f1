package fits_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/astrogo/fitsio"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/fits"
)

// fitsio is an independent writer and reader of the same standard.
func TestFrameOfFitsio(t *testing.T) {
	var content bytes.Buffer
	out, err := fitsio.Create(&content)
	require.NoError(t, err)
	values := []int16{0, 1, -1, 32767, -32768, 1000, 7, 8, 9, 10, 11, 12}
	image := fitsio.NewImage(16, []int{4, 3})
	require.NoError(t, image.Header().Append(
		fitsio.Card{Name: "BZERO", Value: 32768.0}, fitsio.Card{Name: "BSCALE", Value: 1.0},
		fitsio.Card{Name: "EXPOSURE", Value: 1.5}, fitsio.Card{Name: "IMAGETYP", Value: "FLAT", Comment: "sky"},
	))
	require.NoError(t, image.Write(&values))
	require.NoError(t, out.Write(image))
	require.NoError(t, out.Close())

	frame, err := read(content.Bytes())
	require.NoError(t, err)
	assert.Equal(t, subs.Flat, frame.Header.Kind)
	assert.Equal(t, 1.5, frame.Header.Exposure.Seconds())
	var pixels fits.Pixels
	require.NoError(t, frame.Fill(&pixels))
	for i, raw := range values {
		var got [1]float32
		pixels.Span(i%4, i/4, got[:])
		assert.Equal(t, float32(raw)+32768, got[0])
	}
}

func TestFitsioSeesTheSameInAFrameOfAstropy(t *testing.T) {
	in, err := os.Open(filepath.Join("testdata", "int16.fits"))
	require.NoError(t, err)
	defer func() { require.NoError(t, in.Close()) }()
	theirs, err := fitsio.Open(in)
	require.NoError(t, err)
	image := theirs.HDU(0).(fitsio.Image)
	raw := make([]int16, 17*11) // fitsio panics at less
	require.NoError(t, image.Read(&raw))
	frame := opened(t, "int16.fits")
	assert.Equal(t, image.Header().Axes(), []int{frame.Header.Width, frame.Header.Height})
	assert.Equal(t, image.Header().Get("FILTER").Value, frame.Header.Filter)
	var pixels fits.Pixels
	require.NoError(t, frame.Fill(&pixels))
	row := make([]float32, frame.Header.Width)
	for y := range frame.Header.Height {
		pixels.Span(0, y, row)
		for x, v := range row {
			assert.Equal(t, float32(raw[y*len(row)+x]), v)
		}
	}
}
