package command

import (
	"fmt"
	"strings"
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// localTimes prints the instants of one night as the clock on the wall shows them, to the minute. When
// the clock is changed in the night, each time carries the abbreviation that holds then.
type localTimes struct {
	zone    *time.Location
	changes bool
}

func timesOf(span plan.Span, zone *time.Location) localTimes {
	_, before := span.From.In(zone).Zone()
	_, after := span.To.In(zone).Zone()
	return localTimes{zone: zone, changes: before != after}
}

// of prints an instant, rounded down as clocks do: what the clock shows at that instant.
func (l localTimes) of(t time.Time) string {
	local := t.In(l.zone)
	if l.changes {
		return local.Format("15:04 ") + zoneName(local)
	}
	return local.Format("15:04")
}

// event prints an instant that may not come.
func (l localTimes) event(e sky.Event) string {
	if !e.OK {
		return "none"
	}
	return l.of(e.At)
}

// up prints an instant that may not come, rounded up: what comes at 23:33:20 is not over at 23:33.
func (l localTimes) up(e sky.Event) string {
	e.At = e.At.Add(time.Minute - time.Nanosecond)
	return l.event(e)
}

// heading says in which zone the times are, and how it differs from UTC.
func (l localTimes) heading(span plan.Span) string {
	first, last := span.From.In(l.zone), span.To.In(l.zone)
	if !l.changes {
		return "times " + zoneWithOffset(first)
	}
	_, changed := first.ZoneBounds()
	return fmt.Sprintf("times %s until %s, then %s", zoneWithOffset(first), utc(changed), zoneWithOffset(last))
}

// zoneName returns the abbreviation of the local time's zone, or its offset where there is only that.
func zoneName(local time.Time) string {
	name, _ := local.Zone()
	if strings.ContainsAny(name, "+-") {
		return local.Format("UTC-07:00")
	}
	return name
}

func zoneWithOffset(local time.Time) string {
	offset := local.Format("UTC-07:00")
	if name := zoneName(local); name != offset && name != "UTC" {
		return name + " (" + offset + ")"
	}
	return zoneName(local)
}

// localSecond is a time of day to the second, with its zone.
func localSecond(local time.Time) string { return local.Format("15:04:05 ") + zoneName(local) }

func utc(t time.Time) string { return t.UTC().Format("15:04 UTC") }

// lasting prints a length in hours and minutes, or in minutes and seconds below an hour when seconds
// matter.
func lasting(d time.Duration) string {
	d = d.Round(time.Minute)
	if d < time.Hour {
		return fmt.Sprintf("%d min", d/time.Minute)
	}
	return fmt.Sprintf("%d h %02d min", d/time.Hour, d%time.Hour/time.Minute)
}

// briefly prints a length of minutes and seconds.
func briefly(d time.Duration) string {
	d = d.Round(time.Second)
	if d < time.Minute {
		return fmt.Sprintf("%d s", d/time.Second)
	}
	return fmt.Sprintf("%d min %02d s", d/time.Minute, d%time.Minute/time.Second)
}
