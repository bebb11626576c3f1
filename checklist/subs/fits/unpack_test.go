package fits_test

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/fits"
)

func zipped(t *testing.T, data []byte) []byte {
	t.Helper()
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	_, err := w.Write(data)
	require.NoError(t, err)
	require.NoError(t, w.Close())
	return out.Bytes()
}

// Another writer's frames give the same header and pixels packed and unpacked, an extension behind a table too.
func TestPackedFramesAreReadAsUnpacked(t *testing.T) {
	for _, name := range []string{"uint16.fits", "float32.fits", "extension.fits", "planes.fits"} {
		plain, err := os.ReadFile(filepath.Join("testdata", name))
		require.NoError(t, err)
		path := filepath.Join(t.TempDir(), name+".gz")
		require.NoError(t, os.WriteFile(path, zipped(t, plain), 0o600))
		want, err := fits.Open(filepath.Join("testdata", name))
		require.NoError(t, err)
		got, err := fits.Open(path)
		require.NoError(t, err)
		assert.Equal(t, want.Header, got.Header)
		var a, b fits.Pixels
		require.NoError(t, want.Fill(&a))
		require.NoError(t, got.Fill(&b))
		require.NoError(t, got.Fill(&b), "again, from the beginning")
		width, height := a.Size()
		one, two := make([]float32, width), make([]float32, width)
		for y := range height {
			a.Span(0, y, one)
			b.Span(0, y, two)
			require.Equal(t, one, two, "%s row %d", name, y)
		}
		require.NoError(t, got.Close())
		require.NoError(t, want.Close())
	}
}

// A large frame is read past what is kept of its beginning.
func TestALargePackedFrame(t *testing.T) {
	const side = 1200
	data := file(2*side*side, append([]string{"SIMPLE  =                    T", "BITPIX  = 16", "NAXIS   = 2", "NAXIS1  = 1200", "NAXIS2  = 1200"}, "END")...)
	binary.BigEndian.PutUint16(data[2880+2*(side*side-1):], 4711)
	packed := zipped(t, data)
	frame, err := fits.Read("night.fits.gz", bytes.NewReader(packed), int64(len(packed)))
	require.NoError(t, err)
	var p fits.Pixels
	require.NoError(t, frame.Fill(&p))
	last := make([]float32, 1)
	p.Span(side-1, side-1, last)
	assert.Equal(t, float32(4711), last[0])
}

// Files that lie about themselves, or end early, are refused in words and cost no memory.
func TestPackedFilesThatLie(t *testing.T) {
	plain, err := os.ReadFile(filepath.Join("testdata", "uint16.fits"))
	require.NoError(t, err)
	good := zipped(t, plain)
	read := func(data []byte) error {
		frame, err := fits.Read("night.fits.gz", bytes.NewReader(data), int64(len(data)))
		if err != nil {
			return err
		}
		var p fits.Pixels
		return frame.Fill(&p)
	}
	require.NoError(t, read(good))
	for n := range len(good) * 9 / 10 { // the rest packs the filling behind the pixels
		require.Error(t, read(good[:n]), "cut at %d", n)
	}
	huge := bytes.Clone(good)
	binary.LittleEndian.PutUint32(huge[len(huge)-4:], 1<<31)
	assert.ErrorContains(t, read(huge), "which can't be, or is no frame")
	assert.ErrorContains(t, read(zipped(t, append(bytes.Clone(good), make([]byte, 2880)...))), "packed with gzip twice")
	assert.ErrorIs(t, read(zipped(t, plain[:3000])), fits.ErrCutShort)
}
