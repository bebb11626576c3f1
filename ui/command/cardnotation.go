package command

import (
	"math"

	"duskhand/sky"
	"duskhand/sky/words"
)

// coordinate is a latitude or longitude in the notations that people type. The sign is a letter.
type coordinate struct {
	DMS     string  `json:"degrees_minutes_seconds" doc:"as 31°57′00″ S"`
	DM      string  `json:"degrees_minutes" doc:"as 31°57.000′ S"`
	Letter  string  `json:"decimal" doc:"as 31.95000° S"`
	Decimal float64 `json:"deg" doc:"north + or east +"`
}

func coordinateOf(a sky.Angle, sides words.Sides) coordinate {
	return coordinate{
		DMS: sides.ToArcsecond(a), DM: sides.DecimalMinutes(a), Letter: sides.Decimal(a, 5),
		Decimal: math.Round(a.Degrees()*1e5)/1e5 + 0,
	}
}
