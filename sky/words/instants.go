package words

import (
	"fmt"
	"strings"
	"time"

	"duskhand/sky"
)

// Layouts of the clock on the wall.
const (
	toMinute = "15:04"
	toSecond = "15:04:05"
	withDate = time.DateOnly + " " // before either
)

// Minute returns what a clock in the zone shows at an instant, to the minute: "00:27". It cuts down, as clocks do:
// for what has happened, and for what must be over by then.
func Minute(t time.Time, zone *time.Location) string { return in(t, zone).Format(toMinute) }

// MinuteFrom is Minute for what can only begin then: it goes up, so that what opens at 00:34:46 is open at the "00:35"
// that is told.
func MinuteFrom(t time.Time, zone *time.Location) string { return Minute(up(t), zone) }

func up(t time.Time) time.Time { return t.Add(time.Minute - time.Nanosecond) }

// Second is Minute to the second: "00:27:40".
func Second(t time.Time, zone *time.Location) string { return in(t, zone).Format(toSecond) }

// MinuteWithZone is Minute with the name of the zone: "00:27 ACDT".
func MinuteWithZone(t time.Time, zone *time.Location) string {
	return Minute(t, zone) + " " + ZoneName(in(t, zone))
}

// SecondWithZone is Second with the name of the zone: "00:27:40 ACDT".
func SecondWithZone(t time.Time, zone *time.Location) string {
	return Second(t, zone) + " " + ZoneName(in(t, zone))
}

// DateMinute and DateSecond are Minute and Second after the date: "2026-12-05 00:27".
func DateMinute(t time.Time, zone *time.Location) string {
	return in(t, zone).Format(withDate + toMinute)
}

// DateSecond is DateMinute to the second.
func DateSecond(t time.Time, zone *time.Location) string {
	return in(t, zone).Format(withDate + toSecond)
}

// DateSecondWithZone is DateSecond with the name of the zone.
func DateSecondWithZone(t time.Time, zone *time.Location) string {
	return DateSecond(t, zone) + " " + ZoneName(in(t, zone))
}

// MinuteUTC returns the minute in UTC with its mark: "13:57 UTC".
func MinuteUTC(t time.Time) string { return Minute(t, time.UTC) + " UTC" }

// MinuteFromUTC is MinuteUTC for what can only begin then.
func MinuteFromUTC(t time.Time) string { return MinuteUTC(up(t)) }

// in takes a kit's zone, which may not be known yet: UTC then.
func in(t time.Time, zone *time.Location) time.Time {
	if zone == nil {
		zone = time.UTC
	}
	return t.In(zone)
}

// ZoneName returns the abbreviation of a local time's zone, or its offset where there is only that: "ACDT",
// "UTC+05:30".
func ZoneName(local time.Time) string {
	name, _ := local.Zone()
	if strings.ContainsAny(name, "+-") {
		return Offset(local)
	}
	return name
}

// Offset returns how far a local time is from UTC: "UTC+10:30".
func Offset(local time.Time) string { return local.Format("UTC-07:00") }

// OffsetOf is Offset of a zone's distance, east positive.
func OffsetOf(zone time.Duration) string {
	return Offset(time.Unix(0, 0).In(time.FixedZone("", int(zone.Seconds()))))
}

// OffsetHours returns a zone's distance, east positive, as hand controls ask for it: "+10.5 h".
func OffsetHours(zone time.Duration) string { return plus(Figure(zone.Hours(), 2), "") + " h" }

// Wall prints the instants of one night as the clock on the wall shows them. Where that clock is changed in the
// night, each time carries the abbreviation of the zone that holds then.
type Wall struct {
	zone     *time.Location
	from, to time.Time
	changes  bool
}

// WallOf returns the clock on the wall of a zone in the night between two instants.
func WallOf(from, to time.Time, zone *time.Location) Wall {
	_, before := in(from, zone).Zone()
	_, after := in(to, zone).Zone()
	return Wall{zone, from, to, before != after}
}

// Minute is the function Minute, with the zone where it is needed.
func (w Wall) Minute(t time.Time) string { return w.marked(t, Minute(t, w.zone)) }

// MinuteFrom is the function MinuteFrom, with the zone where it is needed.
func (w Wall) MinuteFrom(t time.Time) string { return w.Minute(up(t)) }

// Event is Minute for what may not come: "none" then.
func (w Wall) Event(e sky.Event) string {
	if !e.OK {
		return "none"
	}
	return w.Minute(e.At)
}

// EventFrom is MinuteFrom for what may not come: "none" then.
func (w Wall) EventFrom(e sky.Event) string {
	e.At = up(e.At)
	return w.Event(e)
}

// Second is the function Second, with the zone where it is needed.
func (w Wall) Second(t time.Time) string { return w.marked(t, Second(t, w.zone)) }

func (w Wall) marked(t time.Time, clock string) string {
	if w.changes {
		return clock + " " + ZoneName(in(t, w.zone))
	}
	return clock
}

// Heading says in which zone the times are, and how it differs from UTC: "times ACDT (UTC+10:30)".
func (w Wall) Heading() string {
	first, last := in(w.from, w.zone), in(w.to, w.zone)
	if !w.changes {
		return "times " + ZoneWithOffset(first)
	}
	_, changed := first.ZoneBounds()
	return fmt.Sprintf("times %s until %s, then %s", ZoneWithOffset(first), MinuteUTC(changed), ZoneWithOffset(last))
}

// ZoneWithOffset returns a local time's zone by name and offset: "ACDT (UTC+10:30)".
func ZoneWithOffset(local time.Time) string {
	offset := Offset(local)
	if name := ZoneName(local); name != offset && name != "UTC" {
		return name + " (" + offset + ")"
	}
	return ZoneName(local)
}
