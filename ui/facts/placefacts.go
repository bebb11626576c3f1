package facts

import (
	"time"

	"duskhand/plan/kit"
)

// earlyNoon and lateNoon are how far from twelve noon may be by the zone's winter time before it is asked whether that is
// so. Some places live with more, as the west of Spain with 1.6 h and the east of Finnmark with −1.1 h, and are asked too.
const earlyNoon, lateNoon = -55 * time.Minute, 75 * time.Minute

// NoonOff is how long after twelve o'clock noon is by the zone's winter time; odd tells that so few places have such a
// zone that it should be asked.
func NoonOff(s kit.Site) (off time.Duration, odd bool) {
	off = afterTwelve(s)
	if s.Zone.String() == "UTC" || s.Zone.String() == "Etc/UTC" {
		return off, false
	}
	return off, off <= earlyNoon || off >= lateNoon
}

// afterTwelve is how long after twelve o'clock noon is by the zone's winter time, by which it is the earlier.
func afterTwelve(s kit.Site) time.Duration {
	in := func(month time.Month) time.Duration {
		return s.NoonByClock(time.Date(2026, month, 1, 0, 0, 0, 0, time.UTC))
	}
	return min(in(time.January), in(time.July)) - 12*time.Hour
}
