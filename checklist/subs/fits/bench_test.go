package fits_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/fits"
)

func TestPixelsKeepTheirMemory(t *testing.T) {
	large, err := read(file(2*400*300, "SIMPLE=T", "BITPIX=16", "NAXIS=2", "NAXIS1=400", "NAXIS2=300"))
	require.NoError(t, err)
	small := opened(t, "int16.fits")
	var pixels fits.Pixels
	require.NoError(t, large.Fill(&pixels))
	row := make([]float32, 17)
	require.Zero(t, testing.AllocsPerRun(20, func() {
		if large.Fill(&pixels) != nil || small.Fill(&pixels) != nil {
			t.Error("not filled")
		}
		pixels.Span(0, 10, row)
	}))
}

// The pixels of a camera of 26 megapixels come from the cache of the system, since they were just written.
func BenchmarkRead26Megapixels(b *testing.B) {
	const width, height = 6248, 4176
	path := filepath.Join(b.TempDir(), "night.fits")
	content := file(2*width*height, "SIMPLE=T", "BITPIX=16", "NAXIS=2", "NAXIS1=6248", "NAXIS2=4176", "BZERO=32768")
	require.NoError(b, os.WriteFile(path, content, 0o600))
	var pixels fits.Pixels
	for b.Loop() {
		frame, err := fits.Open(path)
		require.NoError(b, err)
		require.NoError(b, frame.Fill(&pixels))
		require.NoError(b, frame.Close())
	}
}
