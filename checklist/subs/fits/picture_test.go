package fits_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The picture is found behind whatever stands before it: parts without data, lines, tables.
func TestTheFirstPictureOfAFileIsRead(t *testing.T) {
	picture := file(24, "XTENSION='IMAGE'", "BITPIX=16", "NAXIS=2", "NAXIS1=4", "NAXIS2=3", "PCOUNT=0", "GCOUNT=1", "FILTER='OIII'")
	second := file(30, "XTENSION='IMAGE'", "BITPIX=16", "NAXIS=2", "NAXIS1=5", "NAXIS2=3", "PCOUNT=0", "GCOUNT=1")
	empty := header("XTENSION='IMAGE'", "BITPIX=8", "NAXIS=0", "PCOUNT=0", "GCOUNT=1")
	line := file(200, "XTENSION='IMAGE'", "BITPIX=16", "NAXIS=1", "NAXIS1=100", "PCOUNT=0", "GCOUNT=1")
	table := file(24, "XTENSION='BINTABLE'", "BITPIX=8", "NAXIS=2", "NAXIS1=8", "NAXIS2=3", "PCOUNT=0", "GCOUNT=1")
	nothing := header("SIMPLE=T", "BITPIX=8", "NAXIS=0", "OBJECT='NGC 2070'")
	for name, content := range map[string][]byte{
		"at once":                     slices.Concat(nothing, picture, second),
		"behind an empty part":        slices.Concat(nothing, empty, picture, second),
		"behind a line":               slices.Concat(nothing, line, picture),
		"behind a table":              slices.Concat(nothing, table, picture),
		"behind all of them":          slices.Concat(nothing, empty, table, line, empty, picture, table),
		"behind a primary of one row": slices.Concat(file(200, "SIMPLE=T", "BITPIX=16", "NAXIS=1", "NAXIS1=100", "OBJECT='NGC 2070'"), picture),
	} {
		frame, err := read(content)
		require.NoError(t, err, name)
		assert.Equal(t, 4, frame.Header.Width, name)
		assert.Equal(t, 3, frame.Header.Height, name)
		assert.Equal(t, "OIII", frame.Header.Filter, name)
		assert.Equal(t, "NGC 2070", frame.Header.Object, name)
	}
}
