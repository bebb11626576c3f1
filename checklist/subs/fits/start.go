package fits

import (
	"math"
	"strings"
	"time"
)

// modifiedJulianZero is the instant from which MJD counts days: 1858 November 17, 0h.
var modifiedJulianZero = time.Date(1858, time.November, 17, 0, 0, 0, 0, time.UTC)

// start returns when the exposure began: DATE-OBS, with TIME-OBS where the date stands alone, or MJD-OBS.
// A header in another scale of time than UTC gives no start (section 9.2.1).
func (f *Frame) start(c cards) *time.Time {
	if scale := strings.ToUpper(c.words("TIMESYS")); !universal(scale) {
		f.remark("its times are in %s (TIMESYS), not in UTC, so its start is not used; let the capture program write UTC", scale)
		return nil
	}
	if days, ok := c.number("MJD-OBS"); ok && !strings.Contains(c.words("DATE-OBS"), "T") && c.words("TIME-OBS") == "" {
		if days < -700_000 || days > 3_000_000 { // beyond the years that DATE-OBS can write
			f.remark("MJD-OBS is %v days, no date of our time", days)
			return nil
		}
		whole, part := math.Modf(days)
		at := modifiedJulianZero.AddDate(0, 0, int(whole)).Add(time.Duration(math.Round(part * float64(24*time.Hour))))
		return &at
	}
	return f.date(c)
}

// date reads DATE-OBS.
func (f *Frame) date(c cards) *time.Time {
	text := c.words("DATE-OBS")
	if text == "" {
		return nil
	}
	if !strings.Contains(text, "T") {
		if clock := c.words("TIME-OBS"); clock != "" { // two keywords, as before 1998
			text += "T" + clock
		} else {
			f.remark("DATE-OBS gives the day only, %q; its start is taken for 0h UTC", text)
		}
	}
	at, ok := parseDate(text)
	if !ok {
		f.remark("DATE-OBS is %q, not a date like 2026-10-03T21:15:30", text)
		return nil
	}
	return &at
}

// parseDate reads a date of section 9.1.1, to the nanosecond. A Z at its end is not in the standard but
// says what we take for granted. Second 60, the leap second, is the one after.
func parseDate(text string) (at time.Time, ok bool) {
	text = strings.TrimSuffix(text, "Z")
	leap := time.Duration(0)
	if head, tail, found := strings.Cut(text, ":60"); found && len(head) == len("2026-10-03T21:15") {
		text, leap = head+":59"+tail, time.Second
	}
	for _, form := range []string{"2006-01-02T15:04:05", "2006-01-02T15:04", "2006-01-02"} {
		if at, err := time.Parse(form, text); err == nil { // takes a fraction of the seconds too
			return at.Add(leap), true
		}
	}
	return time.Time{}, false
}

// universal tells whether a scale of time is UTC, or within the second of it that the Earth takes.
func universal(scale string) bool {
	scale, _, _ = strings.Cut(scale, "(") // the realisation, as in UTC(NIST)
	switch strings.TrimSpace(scale) {
	case "", "UTC", "UT", "UT1", "GMT":
		return true
	}
	return false
}
