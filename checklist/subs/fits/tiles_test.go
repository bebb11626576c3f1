package fits_test

import (
	"bytes"
	"errors"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/fits"
)

// What astropy reads back of the frames that it compressed, by CFITSIO. Quantised floats come from the same whole
// numbers and random numbers, so they agree to the rounding of 24 bits.
func TestTilesOfAstropy(t *testing.T) { checkPixels(t, "tiled.csv", 19*8+4, 1e-7) }

// The frame has a pixel without a value at (3, 9), which astropy 5.2 made the least whole number, without the
// card that says so.
func TestPixelWithoutAValueInATile(t *testing.T) {
	frame, err := read(with(t, "dither1.fits.fz", "ZBLANK=-2147483648"))
	require.NoError(t, err)
	var pixels fits.Pixels
	require.NoError(t, frame.Fill(&pixels))
	row := make([]float32, 17)
	pixels.Span(0, 9, row)
	for x, v := range row {
		assert.Equal(t, x == 3, math.IsNaN(float64(v)), "%d: %v", x, v)
	}
}

func TestHeaderOfTiles(t *testing.T) {
	start, exposure, celsius := time.Date(2026, 10, 3, 21, 15, 30, 250_000_000, time.UTC), time.Minute, -10.5
	want := subs.Header{
		Start: &start, Exposure: &exposure, Filter: "Ha 3nm", Object: "NGC 2070", Kind: subs.Light,
		SensorC: &celsius, BinX: 2, BinY: 2, Width: 17, Height: 11,
	}
	for _, name := range []string{"riceu16", "gzip2u16", "dither1", "planes", "plain"} {
		frame := opened(t, name+".fits.fz")
		assert.Equal(t, want, frame.Header, name)
		assert.Empty(t, frame.Remarks, name)
	}
	var pixels fits.Pixels
	require.NoError(t, opened(t, "riceu16.fits.fz").Fill(&pixels))
	assert.Equal(t, []float64{65535, 1}, []float64{pixels.Top(), pixels.Step()})
}

func TestOtherWaysOfCompressingAreNamed(t *testing.T) {
	_, err := fits.Open(filepath.Join("testdata", "other.fits.fz"))
	assert.EqualError(t, err, "other.fits.fz: ZCMPTYPE is HCOMPRESS_1; tiles of RICE_1, GZIP_1, GZIP_2 and NOCOMPRESS can be read")
	content, err := os.ReadFile(filepath.Join("testdata", "rice16.fits.fz"))
	require.NoError(t, err)
	_, err = read(zipped(t, content))
	assert.EqualError(t, err, "night.fits: holds compressed tiles and is packed with gzip around them; it can be read when unpacked once")
}

// A header that lies about its tiles is refused in words, and costs no memory by what it promises.
func TestTilesThatLie(t *testing.T) {
	for _, c := range []struct{ name, file, card, says string }{
		{"a vast image", "rice16", "ZNAXIS1=2147483647", "the header promises 2147483647 × 11 pixels, which cannot be in"},
		{"vast planes", "planes", "ZNAXIS3=2147483647", "which cannot be in"},
		{"more than can be packed", "riceflat", "ZNAXIS2=100000", "which cannot be in"},
		{"fewer rows than tiles", "rice16", "ZNAXIS2=12", "has 11 rows, which is not the number of tiles"},
		{"a tile of nothing", "rice16", "ZTILE1=0", "ZTILE1 is 0; it is the length of a tile, 1 or more"},
		{"an odd block", "rice16", "ZVAL1=0", "BLOCKSIZE 0; they are 1, 2 or 4, and 16 or 32"},
		{"a seed beyond the table", "dither1", "ZDITHER0=10001", "ZDITHER0 is 10001; it is a whole number from 1 to 10000"},
		{"a dither of another kind", "dither1", "ZQUANTIZ='OTHER'", `ZQUANTIZ is "OTHER"`},
		{"no ZBITPIX of ours", "rice16", "ZBITPIX=12", "ZBITPIX is 12; it is one of"},
		{"a heap before its table", "rice16", "THEAP=1", "THEAP is 1; the heap lies behind"},
		{"a column that is no form", "rice16", "TFORM1='Z'", "TFORM1 is \"Z\"; it is the form of a column"},
		{"a vast heap", "rice16", "PCOUNT=99999999999", "do not fit into the file"},
	} {
		t.Run(c.name, func(t *testing.T) {
			content := with(t, c.file+".fits.fz", c.card)
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			_, err := read(content)
			runtime.ReadMemStats(&after)
			assert.ErrorContains(t, err, c.says)
			assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(4e6))
		})
	}
}

// Whichever byte of tiles is damaged, the frame is read or refused, in words; cut short, it is refused as such.
func TestDamagedTiles(t *testing.T) {
	refused := 0
	for _, name := range []string{"rice16", "gzip2i32", "dither2", "plaintile"} {
		content, err := os.ReadFile(filepath.Join("testdata", name+".fits.fz"))
		require.NoError(t, err)
		from := bytes.LastIndex(content, append([]byte("END"), bytes.Repeat([]byte(" "), 77)...)) / 2880 * 2880
		for at := from; at < len(content); at += 3 {
			damaged := bytes.Clone(content)
			damaged[at] ^= 0xff
			frame, err := read(damaged)
			if err == nil {
				err = frame.Fill(new(fits.Pixels))
			}
			if err != nil {
				refused++
				require.ErrorContains(t, err, "night.fits")
			}
		}
		_, err = read(content[:from+2880+16])
		assert.ErrorIs(t, err, fits.ErrCutShort, name)
	}
	assert.Greater(t, refused, 100, "descriptors, gzip's sums and the header's cards notice")
}

// Tiles that share their bytes would make of a small file days of work.
func TestTilesThatLieOverOneAnother(t *testing.T) {
	content, err := os.ReadFile(filepath.Join("testdata", "gzip16.fits.fz"))
	require.NoError(t, err)
	row := bytes.Index(content, []byte("XTENSION"))
	row += (bytes.Index(content[row:], append([]byte("END"), bytes.Repeat([]byte(" "), 77)...))/2880 + 1) * 2880
	pcount := card(t, content, "PCOUNT")
	for i := range 11 { // each tile is the whole heap
		copy(content[row+i*8:], []byte{0, 0, byte(pcount >> 8), byte(pcount), 0, 0, 0, 0})
	}
	frame, err := read(content)
	require.NoError(t, err)
	err = frame.Fill(new(fits.Pixels))
	assert.EqualError(t, err, "reading the pixels of night.fits: tile 2 of 11 "+
		"does not hold the pixels that it should: the frame is damaged; copy it anew")
	assert.False(t, errors.Is(err, fits.ErrCutShort))
}

// card returns a whole number of a header.
func card(t *testing.T, content []byte, keyword string) int {
	t.Helper()
	at := bytes.Index(content, []byte(strings.ToUpper(keyword+strings.Repeat(" ", 8-len(keyword)))+"= "))
	require.Positive(t, at, keyword)
	text, _, _ := strings.Cut(string(content[at+10:at+80]), "/")
	n, err := strconv.Atoi(strings.TrimSpace(text))
	require.NoError(t, err)
	return n
}

// with returns the content of a frame with one card in place of that of its keyword, or of a COMMENT.
func with(t *testing.T, name, card string) []byte {
	t.Helper()
	content, err := os.ReadFile(filepath.Join("testdata", name))
	require.NoError(t, err)
	keyword, value, _ := strings.Cut(card, "=")
	at := bytes.LastIndex(content, []byte((keyword + "        ")[:8]+"= "))
	if at < 0 {
		at = bytes.LastIndex(content, []byte("YBINNING= "))
	}
	require.Zero(t, at%80)
	copy(content[at:], header(keyword + "=" + value)[:80])
	return content
}
