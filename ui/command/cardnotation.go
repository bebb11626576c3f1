package command

import (
	"fmt"
	"math"
	"strings"

	"duskhand/sky"
)

// coordinate is a latitude or longitude in the notations that people type. The sign is a letter.
type coordinate struct {
	DMS     string  `json:"degrees_minutes_seconds" doc:"as 31°57′00″ S"`
	DM      string  `json:"degrees_minutes" doc:"as 31°57.000′ S"`
	Letter  string  `json:"decimal" doc:"as 31.95000° S"`
	Decimal float64 `json:"deg" doc:"north + or east +"`
}

func coordinateOf(a sky.Angle, positive, negative string, digits int) coordinate {
	letter := positive
	if a < 0 {
		letter = negative
	}
	size := math.Abs(a.Degrees())
	whole, minutes, seconds := sixties(size)
	dm := math.Round(size*60*1000) / 1000
	return coordinate{
		DMS:     fmt.Sprintf("%0*d°%02d′%02d″ %s", digits, whole, minutes, seconds, letter),
		DM:      fmt.Sprintf("%0*d°%06.3f′ %s", digits, int(dm/60), dm-60*math.Floor(dm/60), letter),
		Letter:  fmt.Sprintf("%.5f° %s", size, letter),
		Decimal: math.Round(a.Degrees()*1e5)/1e5 + 0,
	}
}

// sixties splits a number of degrees or hours into whole ones, minutes and seconds, rounded to the second.
func sixties(size float64) (whole, minutes, seconds int) {
	total := int(math.Round(size * 3600))
	return total / 3600, total / 60 % 60, total % 60
}

// rightAscension prints hours, minutes and seconds.
func rightAscension(a sky.Angle) string {
	total := int(math.Round(a.Wrapped().Hours()*3600)) % (24 * 3600)
	return fmt.Sprintf("%02dh%02dm%02ds", total/3600, total/60%60, total%60)
}

// declination prints degrees, minutes and seconds with a sign that is not a hyphen.
func declination(a sky.Angle) string {
	whole, minutes, seconds := sixties(math.Abs(a.Degrees()))
	sign := "+"
	if a < 0 && whole+minutes+seconds > 0 {
		sign = "−"
	}
	return strings.Join([]string{sign, fmt.Sprintf("%02d°%02d′%02d″", whole, minutes, seconds)}, "")
}
