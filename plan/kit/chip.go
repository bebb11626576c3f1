package kit

import (
	"math"

	"duskhand/sky"
)

// ScaleArcsecPerPixel returns the angle that one pixel covers at the centre of the field, in seconds of
// arc.
//
// Source: the project's handbook, section 9: 206.265·p/f with p in µm and f in mm.
func (k Kit) ScaleArcsecPerPixel() float64 {
	return sky.Angle(k.Camera.PixelUM / 1000 / k.Optics.FocalLengthMM).Arcseconds()
}

// Field returns the angles that the chip's width and height cover through its centre.
//
// Source: the project's handbook, section 9: 2·atan(d/2f).
func (k Kit) Field() (width, height sky.Angle) {
	return k.across(k.Camera.Width), k.across(k.Camera.Height)
}

func (k Kit) across(pixels int) sky.Angle {
	lengthMM := float64(pixels) * k.Camera.PixelUM / 1000
	return sky.Angle(2 * math.Atan(lengthMM/(2*k.Optics.FocalLengthMM)))
}
