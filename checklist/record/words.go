package record

import (
	"fmt"
	"strings"
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// wall prints instants as the clock on the wall shows them, with the zone where it changes in the night.
type wall struct {
	zone    *time.Location
	changes bool
}

func wallOf(span plan.Span, zone *time.Location) wall {
	_, before := span.From.In(zone).Zone()
	_, after := span.To.In(zone).Zone()
	return wall{zone, before != after}
}

func (w wall) minutes(t time.Time) string { return w.format(t, "15:04") }
func (w wall) seconds(t time.Time) string { return w.format(t, "15:04:05") }

func (w wall) format(t time.Time, layout string) string {
	if w.changes {
		layout += " MST"
	}
	return t.In(w.zone).Format(layout)
}

// heading says what the times are.
func (w wall) heading(span plan.Span) string {
	if w.changes {
		return "times as the clock on the wall showed them, with their zone"
	}
	return "times " + span.From.In(w.zone).Format("MST (UTC-07:00)")
}

// angle prints degrees to a tenth, with a minus sign that is no hyphen.
func angle(a sky.Angle) string {
	text := fmt.Sprintf("%.1f", a.Degrees())
	if text == "-0.0" {
		text = "0.0"
	}
	return strings.Replace(text, "-", "−", 1) + "°"
}

// position prints a position angle to a tenth, in [0°, 360°).
func position(a sky.Angle) string { return angle(roundedPosition(a)) }

// roundedPosition is a position angle to a tenth, in [0°, 360°): 359.97° is 0.0°.
func roundedPosition(a sky.Angle) sky.Angle {
	tenths := int(a.Wrapped().Degrees()*10+0.5) % 3600
	return sky.Angle(tenths) * sky.Degree / 10
}

// lasting prints a length in hours and minutes, or minutes and seconds.
func lasting(d time.Duration) string {
	d = d.Round(time.Second)
	switch {
	case d >= time.Hour:
		d = d.Round(time.Minute)
		return fmt.Sprintf("%d h %02d min", d/time.Hour, d%time.Hour/time.Minute)
	case d >= time.Minute:
		return fmt.Sprintf("%d min %02d s", d/time.Minute, d%time.Minute/time.Second)
	}
	return fmt.Sprintf("%d s", d/time.Second)
}

// seconds prints an exposure: "60 s", "0.5 s".
func seconds(d time.Duration) string {
	return strings.TrimSuffix(fmt.Sprintf("%g", d.Seconds()), ".0") + " s"
}

// numbers prints which subs of a run, "1–5, 21".
func numbers(stretches []Stretch) string {
	var parts []string
	for _, s := range stretches {
		if s.From == s.To {
			parts = append(parts, fmt.Sprint(s.From))
			continue
		}
		parts = append(parts, fmt.Sprintf("%d–%d", s.From, s.To))
	}
	return strings.Join(parts, ", ")
}

// list joins as a sentence does: "1", "1 and 3", "1, 3 and 4".
func list(items []int) string {
	var parts []string
	for _, i := range items {
		parts = append(parts, fmt.Sprint(i))
	}
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}
