package fits_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/fits"
)

// FuzzRead holds that whatever a file contains is read, or refused in words, in memory no larger than it, or than what
// can be packed in it.
func FuzzRead(f *testing.F) {
	names, err := filepath.Glob(filepath.Join("testdata", "*.fits*"))
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
		const mostRatio = 1032 // of deflated data, RFC 1951
		packed := bytes.Contains(content, []byte("ZIMAGE")) || bytes.HasPrefix(content, []byte{0x1f, 0x8b})
		if packed {
			require.LessOrEqual(t, frame.Header.Width*frame.Header.Height, mostRatio*(len(content)+1))
		} else {
			require.LessOrEqual(t, frame.Header.Width*frame.Header.Height, len(content))
		}
		var pixels fits.Pixels
		if err := frame.Fill(&pixels); err != nil && packed {
			require.Contains(t, err.Error(), "night.fits")
			return
		} else {
			require.NoError(t, err)
		}
		width, height := pixels.Size()
		row := make([]float32, width)
		for y := range height {
			pixels.Span(0, y, row)
		}
		require.GreaterOrEqual(t, pixels.Step(), 0.0)
		require.NoError(t, frame.Close())
	})
}
