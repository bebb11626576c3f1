package draw

import (
	"fmt"
	"strings"

	"duskhand/sky"
)

// DegreesText returns a in degrees with its sign and as many decimals as it has, one at most, as in −16°,
// 0° or +2.5°.
func DegreesText(a sky.Angle) string {
	text := strings.TrimSuffix(fmt.Sprintf("%+.1f", a.Degrees()), ".0")
	if text == "+0" || text == "-0" {
		return "0°"
	}
	return strings.Replace(text, "-", "−", 1) + "°"
}

// TenthsText is DegreesText with one decimal always, for what changes while one looks.
func TenthsText(a sky.Angle) string {
	text := fmt.Sprintf("%+.1f°", a.Degrees())
	if text == "-0.0°" {
		text = "+0.0°"
	}
	return strings.Replace(text, "-", "−", 1)
}

// PositionText returns a position angle to a tenth of a degree, 0.0° to 359.9°.
func PositionText(a sky.Angle) string {
	text := fmt.Sprintf("%.1f°", a.Wrapped().Degrees())
	if text == "360.0°" {
		return "0.0°"
	}
	return text
}
