package fits_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/fits"
)

// FuzzRead holds that whatever a file contains is read, or refused in words, in memory no larger than it.
func FuzzRead(f *testing.F) {
	names, err := filepath.Glob(filepath.Join("testdata", "*.fits"))
	require.NoError(f, err)
	require.NotEmpty(f, names)
	for _, name := range names {
		content, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(content)
	}
	for _, c := range wrongs() {
		if len(c.content) < 20_000 {
			f.Add(c.content)
		}
	}
	f.Fuzz(func(t *testing.T, content []byte) {
		frame, err := fits.Read("night.fits", bytes.NewReader(content), int64(len(content)))
		if err != nil {
			require.Contains(t, err.Error(), "night.fits")
			return
		}
		require.LessOrEqual(t, frame.Header.Width*frame.Header.Height, len(content))
		var pixels fits.Pixels
		require.NoError(t, frame.Fill(&pixels))
		width, height := pixels.Size()
		row := make([]float32, width)
		for y := range height {
			pixels.Span(0, y, row)
		}
		require.GreaterOrEqual(t, pixels.Step(), 0.0)
		require.NoError(t, frame.Close())
	})
}
