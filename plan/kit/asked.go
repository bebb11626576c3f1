package kit

import (
	"maps"
	"math"
	"strconv"

	"duskhand/sky"
)

// Asked is one question of a new kit: the part of the kit that it belongs to, and what it is called in a list.
type Asked struct {
	Group, Label string
	Question
}

// Keys of answers that are several of the kit's keys at once.
const (
	PlaceKey   = "site.place"   // latitude, longitude and perhaps height, as sky.ParseSite reads them
	FiltersKey = "subs.filters" // the filters as readFilterList reads them
)

// AskedOfANewKit returns what a person is asked for a kit of their own, by form and interview alike: what has no
// sensible default, and some keys beside it that are better not left to theirs.
func AskedOfANewKit() []Asked {
	rows := []struct{ group, key, label string }{
		{"site", "site.name", "name"},
		{"site", PlaceKey, "place"},
		{"site", "site.zone", "time zone"},
		{"optics", "optics.aperture_mm", "aperture"},
		{"optics", "optics.focal_length_mm", "focal length"},
		{"camera", "camera.pixel_um", "pixel"},
		{"camera", "camera.width_px", "width"},
		{"camera", "camera.height_px", "height"},
		{"derotator", "derotator.min_deg", "lower limit"},
		{"derotator", "derotator.max_deg", "upper limit"},
		{"derotator", "derotator.stops", "stops"},
		{"derotator", "derotator.largest_rate_deg_per_h", "fastest"},
		{"derotator", "derotator.rewind_deg_per_s", "rewinding"},
		{"derotator", "derotator.sense", "sense"},
		{"mount", "mount.floor_deg", "lowest"},
		{"mount", "mount.ceiling_deg", "keyhole from"},
		{"subs", FiltersKey, "filters"},
		{"target", "target.name", "target"},
	}
	asked := make([]Asked, len(rows))
	for i, row := range rows {
		question, _ := QuestionAbout(row.key)
		asked[i] = Asked{row.group, row.label, question}
	}
	return asked
}

// joint returns the question whose answer is several of the kit's keys.
func joint(key string) (Question, bool) {
	switch key {
	case PlaceKey:
		return Question{
			Key:     PlaceKey,
			Prompt:  "Latitude and longitude, and the height above the sea, in any usual notation.",
			Range:   "latitude, longitude, and metres if you like",
			Example: `31°57'S 141°30'E, 210 m`,
		}, true
	case FiltersKey:
		return Question{
			Key:     FiltersKey,
			Prompt:  "Every filter with the length of one sub and how many; those without numbers have the next one's.",
			Range:   "name, seconds × count, with a comma between filters",
			Example: "L 60 s × 120, R, G, B 120 × 40",
		}, true
	}
	return Question{}, false
}

// apart returns the answers with those to joint questions given to the kit's own keys, and the filters after the
// first, by the names of their keys. What can't be read is a fault of the joint question.
func apart(answers map[string]string) (plain map[string]string, more []map[string]string, faults Faults) {
	plain = maps.Clone(answers)
	if text := plain[PlaceKey]; text != "" {
		delete(plain, PlaceKey)
		site, err := sky.ParseSite(text)
		if err != nil {
			faults = append(faults, Fault{Key: PlaceKey, Problem: err.Error()})
		} else {
			maps.Copy(plain, PlaceAnswers(site))
		}
	}
	if text := plain[FiltersKey]; text != "" {
		delete(plain, FiltersKey)
		filters, err := readFilterList(text)
		if err != nil {
			faults = append(faults, Fault{Key: FiltersKey, Problem: err.Error()})
			return plain, nil, faults
		}
		for name, answer := range filters[0] {
			plain["subs.filter."+name] = answer
		}
		more = filters[1:]
	}
	return plain, more, faults
}

// PlaceAnswers gives the answers to the keys of a site's place, to 0.1 mm on the ground; the height where it is not 0.
func PlaceAnswers(site sky.Site) map[string]string {
	answers := map[string]string{"site.latitude": typedDegrees(site.Latitude), "site.longitude": typedDegrees(site.Longitude)}
	if site.ElevationMetres != 0 {
		answers["site.elevation_m"] = strconv.FormatFloat(site.ElevationMetres, 'f', -1, 64)
	}
	return answers
}

// typedDegrees writes an angle without what the passage through radians adds.
func typedDegrees(a sky.Angle) string {
	const perDegree = 1e9
	return strconv.FormatFloat(math.Round(a.Degrees()*perDegree)/perDegree, 'f', -1, 64)
}
