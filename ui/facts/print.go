package facts

import (
	"fmt"
	"strings"
	"time"
)

// HourMinute prints an instant to the minute in a zone. It rounds down: what must be done by 00:27:40 must
// be done by 00:27.
func HourMinute(t time.Time, zone *time.Location) string { return t.In(zone).Format("15:04") }

// HourMinuteUp rounds up instead: what opens at 00:34:46 is open at 00:35.
func HourMinuteUp(t time.Time, zone *time.Location) string {
	return HourMinute(t.Add(time.Minute-time.Nanosecond), zone)
}

// ExposureText prints a shutter time: 60 s, 0.5 s.
func ExposureText(d time.Duration) string {
	return strings.TrimSuffix(fmt.Sprintf("%.1f", d.Seconds()), ".0") + " s"
}

// RunsText prints a number of runs.
func RunsText(n int) string {
	if n == 1 {
		return "1 run"
	}
	return fmt.Sprintf("%d runs", n)
}
