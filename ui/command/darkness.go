package command

import (
	"bytes"
	"fmt"
	"strings"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
)

// writeDarkness writes when it is as dark as the kit wants it, and for a night that never is what it comes to.
func writeDarkness(out *bytes.Buffer, p planned, local words.Wall) {
	night := p.night
	level := night.Kit.DarkSunFor(kit.Target{})
	for _, dark := range night.Dark {
		how := ""
		if level != sky.AstronomicalTwilight {
			how = ", the Sun " + words.Degrees(-level, 1) + " down or more"
		}
		line(out, "Dark", "%s to %s (%s to %s), %s%s", local.MinuteFrom(dark.From), local.Minute(dark.To), words.MinuteFromUTC(dark.From), words.MinuteUTC(dark.To), words.Lasting(dark.Length()), how)
	}
	if len(night.Dark) == 0 {
		line(out, "Dark", "%s", neverDark(night, level, local))
	}
	for _, t := range p.targets {
		if own := night.Kit.DarkSunFor(t.target); own != level {
			line(out, "", "%s is taken %s", t.target.Name, spansBelow(plan.DarkSpans{Below: own, Spans: t.course.Dark}, local))
		}
	}
}

// neverDark says how dark such a night gets, and which key would make use of it.
func neverDark(night *plan.Night, level sky.Angle, local words.Wall) string {
	at, lowest := night.Frame.SunLowest(night.Span.From)
	text := fmt.Sprintf("never: the Sun does not sink to %s below the horizon this night, ", words.Degrees(-level, 1))
	if lowest >= 0 {
		return text + "nor sets at all"
	}
	text += fmt.Sprintf("only to %s, at %s", words.Degrees(-lowest, 1), local.Minute(at))
	possible, ok := night.DarkestPossible()
	if !ok {
		return text
	}
	return text + fmt.Sprintf("; site.dark_sun_deg = %.0f would give %s", possible.Below.Degrees(), spansBelow(possible, local))
}

// spansBelow says when the Sun is so low, and for how long together.
func spansBelow(d plan.DarkSpans, local words.Wall) string {
	if len(d.Spans) == 0 {
		return fmt.Sprintf("with the Sun %s down or more, which it never is this night", words.Degrees(-d.Below, 1))
	}
	var parts []string
	for _, span := range d.Spans {
		parts = append(parts, local.MinuteFrom(span.From)+" to "+local.Minute(span.To))
	}
	return fmt.Sprintf("%s, %s, with the Sun %s down or more", strings.Join(parts, " and "), words.Lasting(d.Length()), words.Degrees(-d.Below, 1))
}

type lowestJSON struct {
	At       string  `json:"at" doc:"when"`
	Altitude float64 `json:"altitude_deg" doc:"of its centre, airless"`
}

type possibleJSON struct {
	Below float64    `json:"sun_deg" doc:"that site.dark_sun_deg would have to be: -12, -9 or -6"`
	Spans []spanJSON `json:"spans" doc:"when it would be dark then"`
	Len   int64      `json:"length_s" doc:"their length together, seconds"`
}

// darknessOf fills in how dark the night is.
func (d *document) darknessOf(night *plan.Night) {
	d.DarkSun = rounded(night.Kit.DarkSunFor(kit.Target{}), 1)
	at, altitude := night.Frame.SunLowest(night.Span.From)
	d.SunLowest = lowestJSON{instant(at), rounded(altitude, 1)}
	if len(night.Dark) > 0 {
		return
	}
	if possible, ok := night.DarkestPossible(); ok {
		j := possibleJSON{Below: rounded(possible.Below, 1), Len: seconds(possible.Length())}
		for _, span := range possible.Spans {
			j.Spans = append(j.Spans, spanOf(span))
		}
		d.Possible = &j
	}
}
