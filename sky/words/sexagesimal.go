package words

import (
	"fmt"
	"math"

	"duskhand/sky"
)

// Sides are what a coordinate's sign is told by.
type Sides struct {
	Positive, Negative string
	digits             int // of the whole degrees, in notations of fixed width
}

// Latitudes and Longitudes tell north from south and east from west by letters.
func Latitudes() Sides { return Sides{"N", "S", 2} }

// Longitudes is Latitudes for longitudes.
func Longitudes() Sides { return Sides{"E", "W", 3} }

// LatitudesInWords and LongitudesInWords do it by words, "31°57′ south", and don't fill up with zeros.
func LatitudesInWords() Sides { return Sides{"north", "south", 1} }

// LongitudesInWords is LatitudesInWords for longitudes.
func LongitudesInWords() Sides { return Sides{"east", "west", 1} }

func (s Sides) of(a sky.Angle) string {
	if a < 0 {
		return s.Negative
	}
	return s.Positive
}

// ToArcminute returns a coordinate in degrees and whole minutes: "31°57′ south".
func (s Sides) ToArcminute(a sky.Angle) string {
	total := int(math.Round(a.Abs().Arcminutes()))
	return fmt.Sprintf("%0*d°%02d′ %s", s.digits, total/60, total%60, s.of(a))
}

// ToArcsecond returns a coordinate in degrees, minutes and seconds: "31°57′00″ S".
func (s Sides) ToArcsecond(a sky.Angle) string {
	whole, minutes, seconds := sixties(a.Abs().Degrees())
	return fmt.Sprintf("%0*d°%02d′%02d″ %s", s.digits, whole, minutes, seconds, s.of(a))
}

// DecimalMinutes returns a coordinate in degrees and minutes with three decimals: "31°57.000′ S".
func (s Sides) DecimalMinutes(a sky.Angle) string {
	minutes := math.Round(a.Abs().Arcminutes()*1000) / 1000
	return fmt.Sprintf("%0*d°%06.3f′ %s", s.digits, int(minutes/60), minutes-60*math.Floor(minutes/60), s.of(a))
}

// Decimal returns a coordinate in degrees with so many decimals: "31.95000° S".
func (s Sides) Decimal(a sky.Angle, decimals int) string {
	return Degrees(a.Abs(), decimals) + " " + s.of(a)
}

// sixties splits a number of degrees or hours into whole ones, minutes and seconds, rounded to the second.
func sixties(size float64) (whole, minutes, seconds int) {
	total := int(math.Round(size * 3600))
	return total / 3600, total / 60 % 60, total % 60
}

// RightAscension returns one in hours, minutes and seconds, in [0 h, 24 h): "05h38m42s".
func RightAscension(a sky.Angle) string {
	whole, minutes, seconds := sixties(a.Wrapped().Hours())
	return fmt.Sprintf("%02dh%02dm%02ds", whole%24, minutes, seconds)
}

// Declination returns one in degrees, minutes and seconds with its sign: "−69°06′03″".
func Declination(a sky.Angle) string {
	whole, minutes, seconds := sixties(a.Abs().Degrees())
	sign := "+"
	if a < 0 && whole+minutes+seconds > 0 {
		sign = "−"
	}
	return fmt.Sprintf("%s%02d°%02d′%02d″", sign, whole, minutes, seconds)
}
