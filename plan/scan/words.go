package scan

import (
	"fmt"
	"time"

	"duskhand/plan/kit"
)

// Lasting prints a length of time to the minute for a sentence: 16 min, 1 h 52 min, 3 h.
func Lasting(d time.Duration) string {
	minutes := int(d.Round(time.Minute).Minutes())
	switch {
	case minutes < 60:
		return fmt.Sprintf("%d min", minutes)
	case minutes%60 == 0:
		return fmt.Sprintf("%d h", minutes/60)
	}
	return fmt.Sprintf("%d h %d min", minutes/60, minutes%60)
}

// Clock prints an instant to the minute in the site's zone, UTC if the kit has none.
func Clock(site kit.Site, t time.Time) string {
	zone := site.Zone
	if zone == nil {
		zone = time.UTC
	}
	return t.In(zone).Format("15:04")
}
