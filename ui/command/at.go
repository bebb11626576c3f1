package command

import (
	"strings"
	"time"
)

// parseAt reads an instant: RFC 3339, or date and time of day as the clock on the wall shows it in zone.
func parseAt(text string, zone *time.Location) (time.Time, error) {
	text = strings.TrimSpace(text)
	if t, err := time.Parse(time.RFC3339Nano, text); err == nil {
		return t.UTC(), withinYears("--at", t.Year())
	}
	for _, layout := range []string{"2006-01-02 15:04", "2006-01-02 15:04:05", "2006-01-02T15:04", "2006-01-02T15:04:05"} {
		if t, err := time.ParseInLocation(layout, text, zone); err == nil {
			if err := shownOnce(t, text, layout); err != nil {
				return time.Time{}, err
			}
			return t.UTC(), withinYears("--at", t.Year())
		}
	}
	return time.Time{}, wrongUsef("--at is %q; give RFC 3339, as 2026-12-05T12:44:00Z, or the time in %s, as \"2026-12-05 23:14\"", text, zone)
}

// shownOnce refuses a time of day that the clock skips or shows twice when summer time begins or ends.
func shownOnce(t time.Time, text, layout string) error {
	if t.Format(layout) != text {
		return wrongUsef("--at %q does not happen in %s, where the clock is put forward then; give RFC 3339, as %s", text, t.Location(), t.Format(time.RFC3339))
	}
	start, end := t.ZoneBounds()
	for _, other := range []time.Time{start.Add(-time.Nanosecond), end} {
		if other.IsZero() || start.IsZero() && other.Before(t) {
			continue
		}
		_, offset := t.Zone()
		_, otherOffset := other.Zone()
		twin := t.Add(time.Duration(offset-otherOffset) * time.Second)
		if !twin.Equal(t) && twin.Format(layout) == text {
			return wrongUsef("--at %q happens twice in %s; say which, as %s or %s", text, t.Location(), t.Format(time.RFC3339), twin.Format(time.RFC3339))
		}
	}
	return nil
}

// The years for which the time scales hold, as in the questions of compute.
const firstYear, lastYear = 1950, 2100

func withinYears(flag string, year int) error {
	if year < firstYear || year > lastYear {
		return wrongUsef("%s is in the year %d; give one from %d to %d", flag, year, firstYear, lastYear)
	}
	return nil
}
