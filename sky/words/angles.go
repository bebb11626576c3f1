package words

import (
	"math"
	"strings"

	"duskhand/sky"
)

// Degrees returns an angle with so many decimals: "−2.5°", "41°".
func Degrees(a sky.Angle, decimals int) string { return Number(a.Degrees(), decimals) + "°" }

// DegreesAsRead returns an angle with the tenth of a degree that it has, if it has one: "−16°", "2.5°".
func DegreesAsRead(a sky.Angle) string { return Figure(a.Degrees(), 1) + "°" }

// Signed is DegreesAsRead with a plus sign: "+2.5°", "−16°", "0°": where a derotator stands.
func Signed(a sky.Angle) string { return plus(DegreesAsRead(a), "0°") }

// SignedTenths is Signed with one decimal always, for what changes while one looks: "+2.0°".
func SignedTenths(a sky.Angle) string { return SignedDegrees(a, 1) }

// SignedDegrees returns an angle with its sign and so many decimals: "+31.9500°".
func SignedDegrees(a sky.Angle, decimals int) string { return plus(Degrees(a, decimals), "") }

// plus gives what has no sign one, but for a nought that takes none.
func plus(text, nought string) string {
	if text == nought || strings.HasPrefix(text, "−") {
		return text
	}
	return "+" + text
}

// Direction returns an azimuth or a position angle, in [0°, 360°), with so many decimals: 359.97° to a tenth is
// "0.0°".
func Direction(a sky.Angle, decimals int) string {
	return Number(RoundedDirection(a, decimals), decimals) + "°"
}

// RoundedDirection returns an azimuth or a position angle in degrees, rounded to so many decimals, in [0, 360).
func RoundedDirection(a sky.Angle, decimals int) float64 {
	steps := math.Pow10(decimals)
	return math.Mod(math.Round(a.Wrapped().Degrees()*steps), 360*steps) / steps
}

// Arcminutes returns a small angle in minutes of arc with so many decimals: "1.2′".
func Arcminutes(a sky.Angle, decimals int) string { return Number(a.Arcminutes(), decimals) + "′" }

// Arcseconds returns a small angle in seconds of arc with so many decimals: "2.35″".
func Arcseconds(a sky.Angle, decimals int) string { return Number(a.Arcseconds(), decimals) + "″" }

// Size returns how large something is on the sky: "2.5°", "41′", "1.2′".
func Size(a sky.Angle) string {
	switch {
	case a >= 2*sky.Degree:
		return Degrees(a, 1)
	case a >= 10*sky.Arcminute:
		return Arcminutes(a, 0)
	}
	return Arcminutes(a, 1)
}

// AnHour returns how fast an angle changes, without its sign, with so many decimals: "17.3° an hour".
func AnHour(r sky.Rate, decimals int) string {
	return Number(math.Abs(r.DegreesPerHour()), decimals) + "° an hour"
}

// SignedAnHour is AnHour with a minus sign for what shrinks: "−0.25° an hour".
func SignedAnHour(r sky.Rate, decimals int) string {
	return Number(r.DegreesPerHour(), decimals) + "° an hour"
}

// AnHourWithin is AnHour with its error: "17.30° ± 0.02° an hour".
func AnHourWithin(r, within sky.Rate, decimals int) string {
	return Number(math.Abs(r.DegreesPerHour()), decimals) + "° ± " + AnHour(within, decimals)
}

// AnHourBrief is AnHour where there is little room: "17.3°/h".
func AnHourBrief(r sky.Rate, decimals int) string {
	return Number(math.Abs(r.DegreesPerHour()), decimals) + "°/h"
}

// Compass names the one of the sixteen points of the compass that an azimuth is nearest to: "south-south-east".
func Compass(azimuth sky.Angle) string {
	points := [...]string{"north", "north-north-east", "north-east", "east-north-east", "east", "east-south-east",
		"south-east", "south-south-east", "south", "south-south-west", "south-west", "west-south-west", "west",
		"west-north-west", "north-west", "north-north-west"}
	return points[int((azimuth.Wrapped()+11.25*sky.Degree)/(22.5*sky.Degree))%16]
}

// CompassLetters is Compass where there is little room: "SSE".
func CompassLetters(azimuth sky.Angle) string {
	var letters strings.Builder
	for _, word := range strings.Split(Compass(azimuth), "-") {
		letters.WriteString(strings.ToUpper(word[:1]))
	}
	return letters.String()
}
