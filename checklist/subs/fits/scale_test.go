package fits_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A pixel of 25.28 µm of a plate of 67.20″ a millimetre covers 1.699″: what the figures of that survey's plates give.
// The others are 1.5″ written in each way that the standard has.
func TestTheScaleThatAHeaderStates(t *testing.T) {
	for name, c := range map[string]struct {
		cards  []string
		arcsec float64
	}{
		"nothing said":                  {nil, 0},
		"a plate":                       {[]string{"PLTSCALE=67.20", "XPIXELSZ=25.28"}, 1.69882},
		"a plate without its pixels":    {[]string{"PLTSCALE=67.20"}, 0},
		"CD, turned by 30° and mirror":  {[]string{"CTYPE1='RA---TAN'", "CD1_1=-3.608439E-4", "CD1_2=2.083333E-4", "CD2_1=2.083333E-4", "CD2_2=3.608439E-4"}, 1.5},
		"CDELT":                         {[]string{"CTYPE1='RA---TAN'", "CUNIT1='deg'", "CDELT1=-4.1666667D-4", "CDELT2=4.1666667D-4"}, 1.5},
		"CDELT and PC":                  {[]string{"CTYPE1='DEC--TAN'", "CDELT1=4.1666667E-4", "CDELT2=4.1666667E-4", "PC1_1=0", "PC1_2=-1", "PC2_1=1", "PC2_2=0"}, 1.5},
		"CD before CDELT":               {[]string{"CTYPE1='RA---TAN'", "CDELT1=1", "CDELT2=1", "CD1_1=4.1666667E-4", "CD2_2=4.1666667E-4"}, 1.5},
		"a spectrum":                    {[]string{"CTYPE1='WAVE'", "CDELT1=4.1666667E-4", "CDELT2=4.1666667E-4"}, 0},
		"other units":                   {[]string{"CTYPE1='RA---TAN'", "CUNIT1='rad'", "CDELT1=4.1666667E-4", "CDELT2=4.1666667E-4"}, 0},
		"steps of 1° of who knows none": {[]string{"CTYPE1='RA---TAN'", "CDELT1=1.0", "CDELT2=1.0"}, 0},
		"no number":                     {[]string{"CTYPE1='RA---TAN'", "CDELT1='?'", "CDELT2=4.1666667E-4"}, 0},
		"no angle":                      {[]string{"PLTSCALE=1E300", "XPIXELSZ=1E300"}, 0},
	} {
		frame, err := read(file(24, small(c.cards...)...))
		require.NoError(t, err, name)
		assert.InDelta(t, c.arcsec, frame.Header.PerPixel.Arcseconds(), 1e-4, name)
	}
}
