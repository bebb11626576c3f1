package plan

import (
	"fmt"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// Date is a civil date. A night bears that of its evening.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// String prints the date as ISO 8601 does, 2026-12-05.
func (d Date) String() string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

// ParseDate reads an ISO 8601 calendar date.
func ParseDate(text string) (Date, error) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return Date{}, fmt.Errorf("%q is no date; write year-month-day, as 2026-12-05, the date of the evening", text)
	}
	return Date{t.Year(), t.Month(), t.Day()}, nil
}

// DateOf returns the date of the night that t belongs to at the site: nights change at local mean solar
// noon, whatever the clock on the wall says.
func DateOf(site sky.Site, t time.Time) Date {
	solar := t.UTC().Add(time.Duration(site.Longitude.Hours()*float64(time.Hour)) - 12*time.Hour)
	return Date{solar.Year(), solar.Month(), solar.Day()}
}

// Night is the sky of one site from one local mean solar noon to the next.
type Night struct {
	Kit      kit.Kit
	Date     Date
	Span     Span // noon to noon
	Frame    *sky.Frame
	Twilight sky.Twilight
	Dark     []Span // dark enough for the kit's own filters: none at midsummer in the north, all in a polar night

	Moonrise, Moonset sky.Event
}

// NewNight returns the night of a date.
func NewNight(k kit.Kit, date Date) *Night {
	noon := sky.SolarNoon(k.Site.Place, date.Year, date.Month, date.Day)
	n := &Night{Kit: k, Date: date, Span: Span{noon, noon.Add(24 * time.Hour)}}
	n.Frame = sky.NewFrame(k.Site.Place, noon.Add(12*time.Hour), k.Site.DUT1)
	n.Twilight = n.Frame.Twilight(noon)
	n.Moonrise, n.Moonset = n.Frame.MoonEvents(noon)
	n.Dark = n.DarkFor(kit.Target{})
	return n
}

// DarkFor returns the stretches that are dark enough for a target's filters.
func (n *Night) DarkFor(target kit.Target) []Span { return n.DarkBelow(n.Kit.DarkSunFor(target)) }

// DarkBelow returns the stretches of the night in which the Sun's centre stands below an altitude: from dusk to
// dawn, to noon where one of them is missing, and all or nothing where both are.
func (n *Night) DarkBelow(level sky.Angle) []Span {
	dusk, dawn := n.Twilight.AstronomicalDusk, n.Twilight.AstronomicalDawn
	if level != sky.AstronomicalTwilight {
		dusk, dawn = n.Frame.SunBelow(n.Span.From, level)
	}
	if !dusk.OK && !dawn.OK {
		if n.Frame.Sun(n.Span.From).Altitude < level {
			return []Span{n.Span}
		}
		return nil
	}
	from, to := n.Span.From, n.Span.To
	if dusk.OK {
		from = dusk.At
	}
	if dawn.OK {
		to = dawn.At
	}
	if from.Before(to) {
		return []Span{{from, to}}
	}
	return []Span{{n.Span.From, to}, {from, n.Span.To}} // dark at both noons, with a short day between
}

// DarkSpans is one depth of the Sun and what of the night is darker.
type DarkSpans struct {
	Below sky.Angle
	Spans []Span
}

// Length returns how long it is that dark.
func (d DarkSpans) Length() (total time.Duration) {
	for _, span := range d.Spans {
		total += span.Length()
	}
	return total
}

// DarkestPossible returns, for a night that never gets as dark as the kit wants it, the deepest of the usual
// depths (−12°, −9° and −6°, common practice) that it does reach; ok is false when it reaches none of them.
func (n *Night) DarkestPossible() (d DarkSpans, ok bool) {
	for _, level := range []sky.Angle{-12 * sky.Degree, -9 * sky.Degree, -6 * sky.Degree} {
		if spans := n.DarkBelow(level); len(spans) > 0 {
			return DarkSpans{level, spans}, true
		}
	}
	return DarkSpans{}, false
}
