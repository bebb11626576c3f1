package ui

import (
	"fmt"
	"strings"
	"time"

	"duskhand/sky"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// countdown prints a time left for the big digits.
func countdown(left time.Duration) (digits, unit string) { return say.Countdown(left) }

// duration prints a length of time as all sentences do.
func duration(d time.Duration) string { return facts.Lasting(d) }

// hourMinute and hourMinuteUp print an instant in the site's zone, which the header names.
func hourMinute(t time.Time, zone *time.Location) string   { return facts.HourMinute(t, zone) }
func hourMinuteUp(t time.Time, zone *time.Location) string { return facts.HourMinuteUp(t, zone) }

// degreesText prints an angle of the derotator with its sign and as many decimals as it has, one at most:
// −16°, +2.5°. tenths always prints one, for what changes while one looks.
func degreesText(a sky.Angle) string { return draw.DegreesText(a) }

func tenths(a sky.Angle) string { return draw.TenthsText(a) }

// wholeDegrees prints a position angle, 0° to 359°.
func wholeDegrees(a sky.Angle) string {
	return fmt.Sprintf("%d°", int(a.Wrapped().Degrees()+0.5)%360)
}

// CompassWords names the sixteen points of the compass.
func CompassWords(azimuth sky.Angle) string {
	points := [...]string{"north", "north-north-east", "north-east", "east-north-east", "east", "east-south-east",
		"south-east", "south-south-east", "south", "south-south-west", "south-west", "west-south-west", "west",
		"west-north-west", "north-west", "north-north-west"}
	return points[int((azimuth.Wrapped()+11.25*sky.Degree)/(22.5*sky.Degree))%16]
}

// compassLetters is CompassWords for narrow places: SSE.
func compassLetters(azimuth sky.Angle) string {
	var letters strings.Builder
	for _, word := range strings.Split(CompassWords(azimuth), "-") {
		letters.WriteString(strings.ToUpper(word[:1]))
	}
	return letters.String()
}

// longestThatFits returns the first of several ways to say a thing, longest first, that fits the width;
// the last one, shortened, if none does.
func longestThatFits(width int, ways ...string) string {
	for _, way := range ways {
		if draw.Width(way) <= width {
			return way
		}
	}
	if len(ways) == 0 {
		return ""
	}
	return draw.Shorten(draw.Unicode, ways[len(ways)-1], width)
}
