package fits

import (
	"math"
	"strings"
	"time"
)

// modifiedJulianZero is the instant from which MJD counts days: 1858 November 17, 0h.
var modifiedJulianZero = time.Date(1858, time.November, 17, 0, 0, 0, 0, time.UTC)

// julianOfModified is the Julian date at which MJD counts from nought.
const julianOfModified = 2_400_000.5

// start returns when the exposure began. Of what a header says the first that has a time of day counts: DATE-OBS
// (with the clock of another card where the date stands alone), DATE-BEG, MJD-BEG, MJD-OBS, then the middle of
// the exposure by DATE-AVG or MJD-AVG less half of it, then JD. A header in another scale of time than UTC gives
// no start (section 9.2.1).
//
// Source: FITS Standard 4.0, section 9.5, for DATE-BEG, DATE-AVG and their MJD; UT, UTC, UTSTART and JD are cards
// that cameras write (common practice).
func (f *Frame) start(c cards) *time.Time {
	if scale := strings.ToUpper(c.words("TIMESYS")); !universal(scale) {
		f.remark("its times are in %s (TIMESYS), not in UTC, so its start is not used; let the capture program write UTC", scale)
		return nil
	}
	for _, read := range []func() (time.Time, bool){
		func() (time.Time, bool) { return f.date(c, "DATE-OBS") },
		func() (time.Time, bool) { return f.date(c, "DATE-BEG") },
		func() (time.Time, bool) { return f.days(c, "MJD-BEG", 0) },
		func() (time.Time, bool) { return f.days(c, "MJD-OBS", 0) },
		func() (time.Time, bool) { return f.middle(f.date(c, "DATE-AVG")) },
		func() (time.Time, bool) { return f.middle(f.days(c, "MJD-AVG", 0)) },
		func() (time.Time, bool) { return f.days(c, "JD", julianOfModified) },
	} {
		if at, ok := read(); ok {
			return &at
		}
	}
	if text := c.words("DATE-OBS"); dayOnly(text) {
		f.remark("DATE-OBS gives the day only, %q, so its start is not known; let the capture program write the time as well", text)
	}
	return nil
}

// middle returns the start of an exposure by its middle; ok is false when nobody knows how long it was.
func (f *Frame) middle(at time.Time, ok bool) (time.Time, bool) {
	if !ok || f.Header.Exposure == nil {
		return time.Time{}, false
	}
	return at.Add(-*f.Header.Exposure / 2), true
}

// days reads a count of days from a zero, in days before that of MJD.
func (f *Frame) days(c cards, keyword string, zero float64) (at time.Time, ok bool) {
	days, ok := c.number(keyword)
	if !ok {
		return time.Time{}, false
	}
	days -= zero
	if days < -700_000 || days > 3_000_000 { // beyond the years that DATE-OBS can write
		f.remark("%s is %v days, no date of our time", keyword, c.words(keyword))
		return time.Time{}, false
	}
	whole, part := math.Modf(days)
	return modifiedJulianZero.AddDate(0, 0, int(whole)).Add(time.Duration(math.Round(part * float64(24*time.Hour)))), true
}

// clocks are the cards that give the time of a date that stands alone, as before 1998, in this order.
var clocks = []string{"TIME-OBS", "UT", "UTC", "UTSTART", "UT-OBS", "UTC-OBS", "UT-START"}

// date reads a card that gives a date with its time of day.
func (f *Frame) date(c cards, keyword string) (at time.Time, ok bool) {
	text := c.words(keyword)
	if text == "" {
		return time.Time{}, false
	}
	if dayOnly(text) {
		clock := ""
		for _, other := range clocks {
			if clock == "" && keyword == "DATE-OBS" && strings.Contains(c.words(other), ":") {
				clock = c.words(other)
			}
		}
		if clock == "" {
			return time.Time{}, false
		}
		text += "T" + clock
	}
	if at, ok = parseDate(text); !ok {
		f.remark("%s is %q, not a date like 2026-10-03T21:15:30", keyword, text)
	}
	return at, ok
}

func dayOnly(text string) bool { _, err := time.Parse(time.DateOnly, text); return err == nil }

// parseDate reads a date of section 9.1.1, to the nanosecond. A blank for the T, a Z or an offset from UTC at its
// end are not in the standard, but what they mean is plain. Second 60, the leap second, is the one after.
func parseDate(text string) (at time.Time, ok bool) {
	if day, clock, found := strings.Cut(text, " "); found {
		text = day + "T" + strings.TrimSpace(clock)
	}
	leap := time.Duration(0)
	if head, tail, found := strings.Cut(text, ":60"); found && len(head) == len("2026-10-03T21:15") {
		text, leap = head+":59"+tail, time.Second
	}
	for _, form := range []string{"2006-01-02T15:04:05", "2006-01-02T15:04"} { // they take a fraction of the seconds too
		for _, offset := range []string{"", "Z07:00", "Z0700", " Z07:00"} {
			if at, err := time.Parse(form+offset, text); err == nil {
				return at.Add(leap).UTC(), true
			}
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
