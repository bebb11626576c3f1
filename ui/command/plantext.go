package command

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"duskhand/plan"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// writePlanText writes the night's plan for people to read.
func writePlanText(to io.Writer, p planned) error {
	var out bytes.Buffer
	local := words.WallOf(p.night.Span.From, p.night.Span.To, p.night.Kit.Site.Zone)
	writeNight(&out, p, local)
	for i, t := range p.targets {
		out.WriteString("\n")
		writeTarget(&out, p, i+1, t, local)
	}
	writeMore(&out, p, local)
	_, err := to.Write(out.Bytes())
	return err
}

func writeNight(out *bytes.Buffer, p planned, local words.Wall) {
	night, k := p.night, p.night.Kit
	if k.Example {
		out.WriteString("EXAMPLE: the built-in kit, all equipment invented; make your own with: duskhand kit new\n\n")
	}
	fmt.Fprintf(out, "Night of %s at %s (%s %s), %s\n\n", night.Date, k.Site.Name,
		words.Latitudes().Decimal(k.Site.Place.Latitude, 2), words.Longitudes().Decimal(k.Site.Place.Longitude, 2), local.Heading())
	sun := night.Twilight
	line(out, "Sun", "sets %s, rises %s", local.Event(sun.Sunset), local.Event(sun.Sunrise))
	line(out, "Dusk", "civil %s, nautical %s, astronomical %s", local.EventFrom(sun.CivilDusk),
		local.EventFrom(sun.NauticalDusk), local.EventFrom(sun.AstronomicalDusk))
	line(out, "Dawn", "astronomical %s, nautical %s, civil %s", local.Event(sun.AstronomicalDawn),
		local.Event(sun.NauticalDawn), local.Event(sun.CivilDawn))
	line(out, "Moon", "%s", moonText(night, local))
	writeDarkness(out, p, local)
	line(out, "Axis", "%s", axisText(night))
	if p.divided == nil {
		return
	}
	for _, stretch := range p.divided.Stretches {
		line(out, "Turn", "%s", say.Stretch(stretch))
	}
	for _, left := range p.divided.LeftOut {
		line(out, "No turn", "%s: %s", left.Target.Name, say.NoTurn(left, k.Mount.Floor))
	}
	all := p.divided.Idle(night.Dark)
	for _, i := range all {
		if i.Length() >= facts.ShortestIdle {
			from, to := say.EdgesOf(i.Span, all, night.Dark, local)
			line(out, "Idle", "%s to %s, %s: %s", from, to, words.Lasting(i.Length()), say.WhyIdle(i))
		}
	}
}

// axisText says what was assumed of the mount's axis, since every limit's bounds come from it.
func axisText(night *plan.Night) string {
	axis := night.Kit.Axis
	text := "levelled"
	if axis.Tilt > 0 {
		text = fmt.Sprintf("tilted %s towards azimuth %s", words.Degrees(axis.Tilt, 1), words.Direction(axis.Toward, 0))
	}
	if axis.Uncertainty <= 0 {
		return text + ", taken as exact: early and late bounds are the limit itself"
	}
	return fmt.Sprintf("%s, uncertain by ±%s: early and late bounds come from that", text, words.Degrees(axis.Uncertainty, 1))
}

func writeTarget(out *bytes.Buffer, p planned, number int, t plannedTarget, local words.Wall) {
	fmt.Fprintf(out, "%d. %s%s\n", number, t.target.Name, alsoKnown(t))
	for _, w := range t.runs.Windows {
		line(out, "  Window", "%s to %s, %s: %s", local.MinuteFrom(w.From), local.Minute(w.To), words.Lasting(w.Length()), windowReasons(t.course, w))
		if c := w.Ceiling; c.Early.OK && t.course.Axis.Uncertainty > 0 {
			line(out, "  Keyhole", "%s at the earliest, %s for the tilt as believed, %s at the latest", local.Event(c.Early), local.Event(c.At), local.EventFrom(c.Late))
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
	writeUnsuited(out, p, t)
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
