package screens

import (
	"fmt"
	"strings"

	"duskhand/sky"
)

// WholeDegrees prints a position angle, 0° to 359°.
func WholeDegrees(a sky.Angle) string {
	return fmt.Sprintf("%d°", int(a.Wrapped().Degrees()+0.5)%360)
}

// CompassWords names the sixteen points of the compass.
func CompassWords(azimuth sky.Angle) string {
	points := [...]string{"north", "north-north-east", "north-east", "east-north-east", "east",
		"east-south-east",
		"south-east", "south-south-east", "south", "south-south-west", "south-west", "west-south-west", "west",
		"west-north-west", "north-west", "north-north-west"}
	return points[int((azimuth.Wrapped()+11.25*sky.Degree)/(22.5*sky.Degree))%16]
}

// CompassLetters is CompassWords for narrow places: SSE.
func CompassLetters(azimuth sky.Angle) string {
	var letters strings.Builder
	for _, word := range strings.Split(CompassWords(azimuth), "-") {
		letters.WriteString(strings.ToUpper(word[:1]))
	}
	return letters.String()
}

// Counted prints a number of things.
func Counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// Magnitude prints how bright a star is.
func Magnitude(v float64) string {
	return strings.Replace(fmt.Sprintf("%.1f", v), "-", "−", 1)
}
