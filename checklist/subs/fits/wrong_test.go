package fits_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/fits"
)

// wrongs are files that are no frames, by what is wrong with them.
func wrongs() map[string]struct {
	content []byte
	says    string
	short   bool // the file may still be growing
} {
	type wrong = struct {
		content []byte
		says    string
		short   bool
	}
	return map[string]wrong{
		"empty":                {nil, "night.fits is empty", true},
		"shorter than a block": {[]byte("SIMPLE  =                    T"), "ends before its header does", true},
		"text":                 {bytes.Repeat([]byte("all quiet "), 300), `is not a FITS file: it begins with "all quiet al"`, false},
		"packed":               {append([]byte{0x1f, 0x8b, 8}, make([]byte, 3000)...), "packed with gzip", false},
		"no END":               {bytes.Repeat([]byte("SIMPLE  =                    T                                                  "), 36*2), "no END card", true},
		"endless header":       {bytes.Repeat([]byte("SIMPLE  =                    T                                                  "), 36*400), "no END card in its first 1036800 bytes", false},
		"SIMPLE is F":          {file(24, "SIMPLE=F", "BITPIX=16", "NAXIS=2", "NAXIS1=4", "NAXIS2=3"), "SIMPLE is not T", false},
		"cut in the pixels":    {file(24, small()...)[:2880+10], "promises 4 × 3 pixels of 16 bits, but 10 bytes follow it", true},
		"no pixels at all":     {header(small()...), "but 0 bytes follow", true},
		"BITPIX 12":            {file(24, instead("BITPIX=12")...), "BITPIX is 12; it is one of 8, 16, 32, 64, -32, -64", false},
		"BITPIX in quotes":     {file(24, instead("BITPIX='16'")...), `BITPIX is "16"; it is one of`, false},
		"no BITPIX":            {file(24, "SIMPLE=T", "NAXIS=2", "NAXIS1=4", "NAXIS2=3"), "BITPIX is missing", false},
		"least BITPIX":         {file(24, instead("BITPIX=-9223372036854775808")...), "BITPIX is -9223372036854775808", false},
		"no NAXIS":             {file(24, "SIMPLE=T", "BITPIX=16"), "NAXIS is missing; an image has 2 axes", false},
		"one axis":             {file(24, "SIMPLE=T", "BITPIX=16", "NAXIS=1", "NAXIS1=4"), "NAXIS is 1", false},
		"NAXIS below nought":   {file(24, instead("NAXIS=-2")...), "NAXIS is -2", false},
		"NAXIS of a million":   {file(24, instead("NAXIS=1000000")...), "NAXIS is 1000000", false},
		"NAXIS1 below nought":  {file(24, instead("NAXIS1=-4")...), "NAXIS1 is -4; it is the number of pixels along an axis, 1 or more", false},
		"NAXIS1 no number":     {file(24, instead("NAXIS1=four")...), `NAXIS1 is "four"`, false},
		"NAXIS2 missing":       {file(24, "SIMPLE=T", "BITPIX=16", "NAXIS=2", "NAXIS1=4"), "NAXIS2 is missing", false},
		"a vast frame":         {file(24, "SIMPLE=T", "BITPIX=64", "NAXIS=2", "NAXIS1=2147483647", "NAXIS2=2147483647"), "but 2880 bytes follow", true},
		"more than a number":   {file(24, "SIMPLE=T", "BITPIX=64", "NAXIS=2", "NAXIS1=9223372036854775807", "NAXIS2=3"), "NAXIS1 is 9223372036854775807", false},
		"planes beyond count":  {file(24, "SIMPLE=T", "BITPIX=8", "NAXIS=5", "NAXIS1=1", "NAXIS2=1", "NAXIS3=2147483647", "NAXIS4=2147483647", "NAXIS5=2147483647"), "NAXIS4 is 2147483647", false},
		"vast PCOUNT":          {file(24, small("PCOUNT=9223372036854775807")...), "bytes follow", true},
		"BSCALE 0":             {file(24, small("BSCALE=0")...), "BSCALE is 0; it is a number other than 0", false},
		"BZERO no number":      {file(24, small("BZERO=NaN")...), "BZERO is NaN; it is a number", false},
		"nothing in it":        {header("SIMPLE=T", "BITPIX=8", "NAXIS=0"), "holds no image", false},
		"only a table and an empty part": {slices.Concat(header("SIMPLE=T", "BITPIX=8", "NAXIS=0"), header("XTENSION='IMAGE'", "BITPIX=8", "NAXIS=0"),
			file(24, "XTENSION='BINTABLE'", "BITPIX=8", "NAXIS=2", "NAXIS1=8", "NAXIS2=3", "EXTNAME='EVENTS'")),
			`NAXIS is 0 and no image extension follows, only IMAGE with NAXIS 0 and BINTABLE "EVENTS"`, false},
		"six empty parts": {append(header("SIMPLE=T", "BITPIX=8", "NAXIS=0"), bytes.Repeat(header("XTENSION='IMAGE'", "BITPIX=8", "NAXIS=0"), 6)...),
			"IMAGE with NAXIS 0, IMAGE with NAXIS 0 and 2 more", false},
		"a line before one cut short": {append(file(8, "SIMPLE=T", "BITPIX=16", "NAXIS=1", "NAXIS1=4"), header("XTENSION='IMAGE'", "BITPIX=16", "NAXIS=2", "NAXIS1=4", "NAXIS2=3")...),
			"0 bytes follow", true},
		"a broken extension": {append(header("SIMPLE=T", "BITPIX=8", "NAXIS=0"), make([]byte, 2880)...), "part that begins at byte 2880: is not a FITS file", false},
		"a vast table before": {append(header("SIMPLE=T", "BITPIX=8", "NAXIS=0"),
			file(24, "XTENSION='BINTABLE'", "BITPIX=8", "NAXIS=2", "NAXIS1=9999999999", "NAXIS2=9999999999")...), "does not fit into the file", true},
	}
}

func TestWhatIsWrongIsSaid(t *testing.T) {
	for name, c := range wrongs() {
		t.Run(name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			_, err := read(c.content)
			runtime.ReadMemStats(&after)
			require.Error(t, err)
			assert.Contains(t, err.Error(), "night.fits")
			assert.Contains(t, err.Error(), c.says)
			assert.Equal(t, c.short, errors.Is(err, fits.ErrCutShort), "%v", err)
			assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(4e6), "what the header promises is not believed")
		})
	}
}

func TestOnlyFilesAreOpened(t *testing.T) {
	folder := t.TempDir()
	_, err := fits.Open(folder)
	assert.ErrorContains(t, err, "is not a file")
	_, err = fits.Open(filepath.Join(folder, "gone.fits"))
	assert.ErrorIs(t, err, os.ErrNotExist)
	assert.ErrorContains(t, err, "gone.fits")
}

func TestFileIsLeftAsItWas(t *testing.T) {
	path := filepath.Join(t.TempDir(), "night.fits")
	content := file(24, small()...)
	require.NoError(t, os.WriteFile(path, content, 0o400)) // nobody may write it
	before, err := os.Stat(path)
	require.NoError(t, err)
	frame, err := fits.Open(path)
	require.NoError(t, err)
	var pixels fits.Pixels
	require.NoError(t, frame.Fill(&pixels))
	moved := path + ".moved"
	require.NoError(t, os.Rename(path, moved), "the capture program moves it while it is open here")
	require.NoError(t, frame.Close())
	after, err := os.Stat(moved)
	require.NoError(t, err)
	assert.Equal(t, before.ModTime(), after.ModTime())
	now, err := os.ReadFile(moved)
	require.NoError(t, err)
	assert.Equal(t, content, now)
}

func TestFileThatShrinksWhileItIsOpen(t *testing.T) {
	content := file(24, small()...)
	frame, err := fits.Read("night.fits", bytes.NewReader(content[:2880+10]), int64(len(content)))
	require.NoError(t, err)
	var pixels fits.Pixels
	err = frame.Fill(&pixels)
	assert.ErrorIs(t, err, fits.ErrCutShort)
	assert.ErrorContains(t, err, "night.fits: its pixels end early")
}
