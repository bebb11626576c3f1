package fits

import (
	"math"
	"strings"

	"duskhand/sky"
)

// scale reads how much sky one of the frame's own pixels covers, the mean of both ways; 0 where the header does not
// say, or says what no picture of the sky has: by its celestial coordinates, or by the scale of a photographic plate
// and the size of the pixels that it was cut into.
//
// Source: FITS Standard 4.0, section 8 (the area of a pixel is the determinant of CD, or of PC with CDELT; angles in
// degrees unless CUNIT says else). PLTSCALE in arcseconds per millimetre and XPIXELSZ in micrometres are common practice
// of digitised plates.
func scale(c cards) sky.Angle {
	stated := cells(c)
	if stated == 0 {
		perMM, _ := c.number("PLTSCALE")
		micrometres, _ := c.number("XPIXELSZ")
		stated = perMM / 1000 * micrometres / 3600
	}
	if !(stated > 0 && stated < widestPixel) {
		return 0
	}
	return sky.Angle(stated) * sky.Degree
}

// widestPixel is what one pixel covers at most, in degrees: more than a fisheye's. Programs that know no scale write
// steps of 1°. Our choice.
const widestPixel = 0.5

// cells returns the root of a pixel's area in degrees by the celestial coordinates, 0 where there are none.
func cells(c cards) float64 {
	if kind := c.words("CTYPE1"); !strings.HasPrefix(kind, "RA") && !strings.HasPrefix(kind, "DEC") {
		return 0
	}
	if unit := c.words("CUNIT1"); unit != "" && unit != "deg" {
		return 0
	}
	of := func(keyword string, missing float64) float64 {
		if x, ok := c.number(keyword); ok {
			return x
		}
		return missing
	}
	if area := of("CD1_1", 0)*of("CD2_2", 0) - of("CD1_2", 0)*of("CD2_1", 0); area != 0 {
		return math.Sqrt(math.Abs(area))
	}
	turned := of("PC1_1", 1)*of("PC2_2", 1) - of("PC1_2", 0)*of("PC2_1", 0)
	return math.Sqrt(math.Abs(of("CDELT1", 0) * of("CDELT2", 0) * turned))
}
