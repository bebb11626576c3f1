package say

import (
	"fmt"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// Place says where a site is: 31°57′ south, 141°30′ east, 210 m.
func Place(s sky.Site) string {
	metres := words.Number(s.ElevationMetres, 0)
	return words.LatitudesInWords().ToArcminute(s.Latitude) + ", " + words.LongitudesInWords().ToArcminute(s.Longitude) + ", " + metres + " m"
}

// SeenThere says what can be seen of a site and its clock, so that latitude and longitude exchanged, a sign lost or
// another place's zone is noticed: how high the pole's star stands, and when it is noon at that time of the year.
func SeenThere(s kit.Site, at time.Time) string {
	star := "Polaris"
	if s.Place.Latitude < 0 {
		star = "σ Octantis"
	}
	said := fmt.Sprintf("%s stands %s high, and noon is at %s by your clock", star, words.Degrees(s.Place.Latitude.Abs(), 0),
		words.Minute(time.Time{}.Add(s.NoonByClock(at)), time.UTC))
	if off, odd := facts.NoonOff(s); odd {
		said += fmt.Sprintf(", %s from what %s has; see that latitude, longitude, their signs and the zone are right",
			words.Lasting(off.Abs()), s.Zone)
	}
	return said
}
