package command

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"duskhand/plan"
	"duskhand/sky"
	"duskhand/ui/facts"
)

// writePlanText writes the night's plan for people to read.
func writePlanText(to io.Writer, p planned) error {
	var out bytes.Buffer
	local := timesOf(p.night.Span, p.night.Kit.Site.Zone)
	writeNight(&out, p, local)
	for i, t := range p.targets {
		out.WriteString("\n")
		writeTarget(&out, p, i+1, t, local)
	}
	writeMore(&out, p, local)
	_, err := to.Write(out.Bytes())
	return err
}

func writeNight(out *bytes.Buffer, p planned, local localTimes) {
	night, k := p.night, p.night.Kit
	if k.Example {
		out.WriteString("EXAMPLE: the built-in kit, all equipment invented; make your own with: duskhand kit new\n\n")
	}
	fmt.Fprintf(out, "Night of %s at %s (%s %s), %s\n\n", night.Date, k.Site.Name,
		hemisphere(k.Site.Place.Latitude, "N", "S"), hemisphere(k.Site.Place.Longitude, "E", "W"), local.heading(night.Span))
	sun := night.Twilight
	line(out, "Sun", "sets %s, rises %s", local.event(sun.Sunset), local.event(sun.Sunrise))
	line(out, "Dusk", "civil %s, nautical %s, astronomical %s", local.event(sun.CivilDusk),
		local.event(sun.NauticalDusk), local.event(sun.AstronomicalDusk))
	line(out, "Dawn", "astronomical %s, nautical %s, civil %s", local.event(sun.AstronomicalDawn),
		local.event(sun.NauticalDawn), local.event(sun.CivilDawn))
	line(out, "Moon", "%s", moonText(night, local))
	writeDarkness(out, p, local)
	line(out, "Axis", "%s", axisText(night))
	if p.divided == nil {
		return
	}
	for _, stretch := range p.divided.Stretches {
		line(out, "Turn", "%s", stretch.Words())
	}
	for _, left := range p.divided.LeftOut {
		line(out, "No turn", "%s: %s", left.Target.Name, left.Why)
	}
	for _, i := range p.divided.Idle(night.Dark) {
		if i.Length() >= facts.ShortestIdle {
			line(out, "Idle", "%s to %s, %s: %s", local.of(i.From), local.of(i.To), lasting(i.Length()), facts.WhyIdle(i))
		}
	}
}

// axisText says what was assumed of the mount's axis, since every limit's bounds come from it.
func axisText(night *plan.Night) string {
	axis := night.Kit.Axis
	text := "levelled"
	if axis.Tilt > 0 {
		text = fmt.Sprintf("tilted %s towards azimuth %.0f°", tenth(axis.Tilt), axis.Toward.Degrees())
	}
	if axis.Uncertainty <= 0 {
		return text + ", taken as exact: early and late bounds are the limit itself"
	}
	return fmt.Sprintf("%s, uncertain by ±%s: early and late bounds come from that", text, tenth(axis.Uncertainty))
}

func writeTarget(out *bytes.Buffer, p planned, number int, t plannedTarget, local localTimes) {
	fmt.Fprintf(out, "%d. %s%s\n", number, t.target.Name, alsoKnown(t))
	for _, w := range t.runs.Windows {
		line(out, "  Window", "%s to %s, %s: %s", local.of(w.From), local.of(w.To), lasting(w.Length()), windowReasons(t.course, w))
		if c := w.Ceiling; c.Early.OK && t.course.Axis.Uncertainty > 0 {
			line(out, "  Keyhole", "%s at the earliest, %s for the tilt as believed, %s at the latest", local.event(c.Early), local.event(c.At), local.up(c.Late))
		}
	}
	writeMoon(out, p, t, local)
	if why := whyNoRuns(p.night, t, local); why != "" {
		line(out, "  No run", "%s", why)
		writePrice(out, t)
		return
	}
	writeRuns(out, t, local)
	writeIdle(out, t, local)
	writeTotals(out, p.night, t, local)
	writePrice(out, t)
}

// alsoKnown adds the other name of an object and its constellation.
func alsoKnown(t plannedTarget) string {
	object := t.target.Object
	var parts []string
	for _, name := range []string{object.ID, object.Name()} {
		if object.ID != "" && !strings.EqualFold(name, t.target.Name) {
			parts = append(parts, name)
			break
		}
	}
	if object.Constellation != "" {
		parts = append(parts, object.Constellation)
	}
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, ", ") + ")"
}

// line writes one labelled line of the night.
func line(out *bytes.Buffer, label, format string, args ...any) {
	fmt.Fprintf(out, "%-10s%s\n", label, fmt.Sprintf(format, args...))
}

func tenth(a sky.Angle) string { return degreesText(a.Degrees(), 1) }

// degreesText prints degrees with a minus sign of a number's width, and no minus before zero.
func degreesText(degrees float64, digits int) string {
	text := fmt.Sprintf("%.*f", digits, degrees)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return strings.Replace(text, "-", "−", 1) + "°"
}

func hemisphere(a sky.Angle, positive, negative string) string {
	if a < 0 {
		return degreesText(-a.Degrees(), 2) + " " + negative
	}
	return degreesText(a.Degrees(), 2) + " " + positive
}
