package kit

import (
	"strings"

	"duskhand/sky"
	"duskhand/sky/decimal"
	"duskhand/sky/words"
)

// Proposed returns what other answers propose for questions of a new kit, by their keys, as a person would type it: the
// place for the site's name, and the lower limit's opposite for a travel that is as long both ways. What a person is
// asked for comes before what is proposed.
func Proposed(answers map[string]string) map[string]string {
	proposed := map[string]string{}
	if place, ok := placeOf(answers); ok {
		proposed["site.name"] = words.LatitudesInWords().ToArcminute(place.Latitude) + ", " + words.LongitudesInWords().ToArcminute(place.Longitude)
	}
	if low, err := decimal.Parse(answers["derotator.min_deg"]); err == nil && low < 0 {
		proposed["derotator.max_deg"] = strings.TrimLeft(decimal.Plain(answers["derotator.min_deg"]), " -")
	}
	return proposed
}

// placeOf is the site that the answers give, in one answer or in two.
func placeOf(answers map[string]string) (sky.Site, bool) {
	text := answers[PlaceKey]
	if text == "" {
		text = answers["site.latitude"] + " " + answers["site.longitude"]
	}
	site, err := sky.ParseSite(text)
	return site, err == nil
}
