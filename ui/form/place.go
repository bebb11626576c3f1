package form

import (
	"math"
	"strconv"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// placeRead is a site as it was understood; neither known nor wrong while nothing is typed.
type placeRead struct {
	site  sky.Site
	known bool
	err   error
}

func readPlace(text string) placeRead {
	if text == "" {
		return placeRead{}
	}
	site, err := sky.ParseSite(text)
	return placeRead{site, err == nil, err}
}

// answer gives the kit's answers that the place holds.
func (p placeRead) answer(answers map[string]string) {
	if !p.known {
		return
	}
	answers[latitudeKey], answers[longitudeKey] = degrees(p.site.Latitude), degrees(p.site.Longitude)
	if p.site.ElevationMetres != 0 {
		answers[elevationKey] = strconv.FormatFloat(p.site.ElevationMetres, 'f', -1, 64)
	}
}

// degrees writes an angle to 0.1 mm on the ground, without what the passage through radians adds.
func degrees(a sky.Angle) string {
	const perDegree = 1e9
	return strconv.FormatFloat(math.Round(a.Degrees()*perDegree)/perDegree, 'f', -1, 64)
}

func placeQuestion() kit.Question {
	return kit.Question{
		Key:     placeKey,
		Prompt:  "Latitude and longitude, and the height above the sea, in any usual notation.",
		Range:   "latitude, longitude, and metres if you like",
		Example: `31°57'S 141°30'E, 210 m`,
	}
}
