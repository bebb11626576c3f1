package checklist

import (
	"fmt"

	"duskhand/sky"
	"duskhand/sky/words"
)

// What the record says of how an axis was measured by the program itself.

// HowByStars is said of a fit of so many stars, by the root mean square of what it leaves and the readout's zero.
func HowByStars(stars int, residual, azimuthZero sky.Angle) string {
	return fmt.Sprintf("fit of %d stars, residual %s, azimuth zero %s", stars, words.Arcminutes(residual, 1), words.Degrees(azimuthZero, 2))
}

// HowByReadings is said of a fit of so many readings of the derotator in one run, its start among them.
func HowByReadings(readings int) string { return fmt.Sprintf("%d readings in one run", readings) }

// HowByLights is said of a fit of placed lights and of angles at which the derotator was known to stand.
func HowByLights(lights, angles int) string {
	return fmt.Sprintf("%d placed lights and %d known angles of the derotator", lights, angles)
}
