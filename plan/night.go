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
	Dark     []Span // the Sun's centre under −18°: none at midsummer in the north, all in a polar night

	Moonrise, Moonset sky.Event
}

// NewNight returns the night of a date.
func NewNight(k kit.Kit, date Date) *Night {
	noon := sky.SolarNoon(k.Site.Place, date.Year, date.Month, date.Day)
	n := &Night{Kit: k, Date: date, Span: Span{noon, noon.Add(24 * time.Hour)}}
	n.Frame = sky.NewFrame(k.Site.Place, noon.Add(12*time.Hour), k.Site.DUT1)
	n.Twilight = n.Frame.Twilight(noon)
	n.Moonrise, n.Moonset = n.Frame.MoonEvents(noon)
	n.Dark = n.dark()
	return n
}

// dark follows from the twilight: the stretch between dusk and dawn, to noon where one of them is
// missing, and all or nothing where both are.
func (n *Night) dark() []Span {
	dusk, dawn := n.Twilight.AstronomicalDusk, n.Twilight.AstronomicalDawn
	if !dusk.OK && !dawn.OK {
		if n.Frame.Sun(n.Span.From).Altitude < sky.AstronomicalTwilight {
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
