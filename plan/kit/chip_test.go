package kit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/plan/kit"
)

func TestScaleAndFieldOfTheExample(t *testing.T) {
	k := kit.Example()
	assert.InDelta(t, 1.6157, k.ScaleArcsecPerPixel(), 0.00005) // 206.265 × 3.76 / 480, to the last digit
	width, height := k.Field()
	// 2·atan(d/2f): 6248 × 3.76 µm = 23.49248 mm and 4176 × 3.76 µm = 15.70176 mm at 480 mm; d/2f is
	// 0.02447133 and 0.01635600, the arctangents 0.02446645 and 0.01635454 rad (x − x³/3), twice that in
	// degrees below, to the last digit.
	assert.InDelta(t, 2.80365, width.Degrees(), 0.00001)
	assert.InDelta(t, 1.87409, height.Degrees(), 0.00001)
}

func TestAWideFieldIsNotTheScaleTimesThePixels(t *testing.T) {
	k := kit.Kit{Optics: kit.Optics{FocalLengthMM: 12}, Camera: kit.Camera{PixelUM: 6, Width: 4000, Height: 2000}}
	width, height := k.Field()
	assert.InDelta(t, 90, width.Degrees(), 1e-12)          // 24 mm at 12 mm: 2·atan 1
	assert.InDelta(t, 53.13010235, height.Degrees(), 1e-8) // 12 mm at 12 mm: 2·atan ½, the 3-4-5 triangle's angle
}
