package facts

import (
	"fmt"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky/words"
)

// earlyNoon and lateNoon are how far from twelve noon may be by the zone's winter time before it is asked whether that is
// so. Some places live with more, as the west of Spain with 1.6 h and the east of Finnmark with −1.1 h, and are asked too.
const earlyNoon, lateNoon = -55 * time.Minute, 75 * time.Minute

// PlaceFacts says what can be seen of a site and its clock, so that latitude and longitude exchanged, a sign lost or
// another place's zone is noticed: how high the pole's star stands, and when it is noon at that time of the year.
func PlaceFacts(s kit.Site, at time.Time) string {
	star := "Polaris"
	if s.Place.Latitude < 0 {
		star = "σ Octantis"
	}
	noon := s.NoonByClock(at)
	said := fmt.Sprintf("%s stands %s high, and noon is at %s by your clock", star, words.Degrees(s.Place.Latitude.Abs(), 0),
		words.Minute(time.Time{}.Add(noon), time.UTC))
	if s.Zone.String() == "UTC" || s.Zone.String() == "Etc/UTC" {
		return said
	}
	if off := afterTwelve(s); off <= earlyNoon || off >= lateNoon {
		said += fmt.Sprintf(", %s from what %s has; see that latitude, longitude, their signs and the zone are right",
			words.Lasting(off.Abs()), s.Zone)
	}
	return said
}

// afterTwelve is how long after twelve o'clock noon is by the zone's winter time, by which it is the earlier.
func afterTwelve(s kit.Site) time.Duration {
	in := func(month time.Month) time.Duration {
		return s.NoonByClock(time.Date(2026, month, 1, 0, 0, 0, 0, time.UTC))
	}
	return min(in(time.January), in(time.July)) - 12*time.Hour
}
