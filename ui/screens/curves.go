package screens

import (
	"fmt"
	"strings"

	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/layout"
	"duskhand/ui/theme"
)

// edgeOfStrip is the width of the words dusk and dawn at the ends of the strip, with a blank; curves
// above it keep off them, so that an instant is at one column everywhere.
const edgeOfStrip = 5

// LeastCurves is how many rows curves need, their foot and their words among them.
const LeastCurves = 4

func overStrip(area draw.Area) draw.Area {
	return area.Area(0, 0, area.Width()-edgeOfStrip, area.Height())
}

// heightLabel is an angle in as many cells as the strip's edge, less the axis of the curves.
func heightLabel(a sky.Angle) string { return fmt.Sprintf("%4s", words.Signed(a)) }

// Altitudes draws how high targets and Moon stand from dusk to dawn, above the strip and by its time. Whose the curves
// are stands below their foot, where no curve goes.
func (s Status) Altitudes(area draw.Area) {
	if area.Height() < LeastCurves {
		return
	}
	span := s.Tonight.Span()
	v := draw.PlotValues{From: span.From, To: span.To, Low: 0, High: 90, Now: s.Now,
		Heights: []draw.PlotTick{{Value: 0, Label: "  0°"}, {Value: 45, Label: " 45°"},
			{Value: 90, Label: " 90°"}}}
	curve := func(role theme.Role, heights []facts.Height) {
		c := draw.PlotCurve{Role: role}
		under := true
		for _, h := range heights {
			if h.Altitude < 0 {
				under = true
				continue
			}
			c.Points = append(c.Points, draw.PlotPoint{At: h.At, Value: h.Altitude.Degrees(), Gap: under})
			under = false
		}
		v.Curves = append(v.Curves, c)
	}
	curve(theme.Faint, s.Tonight.Moon())
	curves := s.Tonight.Curves()
	for _, c := range curves {
		role := theme.Text
		if c.Present && len(curves) > 1 {
			role = theme.Answer
		}
		curve(role, c.Heights)
	}
	draw.Plot(overStrip(area), s.Charset, v)
	room := area.Width() * 3 / 4
	area.PutRight(area.Width()-edgeOfStrip, area.Height()-1, theme.Faint, layout.Longest(room, s.curveWords(curves)...))
}

// curveWords says whose the curves are, the longest way first.
func (s Status) curveWords(curves []facts.Curve) []string {
	moon := s.moonWords()
	if len(curves) < 2 {
		return moon
	}
	brightest, others := "", ""
	for _, c := range curves {
		if c.Present {
			brightest = "brightest " + c.Target
		} else {
			others += ", then " + c.Target
		}
	}
	names := "altitude: " + brightest + others + ", then the Moon"
	return []string{names + strings.TrimPrefix(moon[0], moonCurve), names + strings.TrimPrefix(moon[1], moonCurve), names, moon[1]}
}

// moonCurve begins the words for the Moon's curve.
const moonCurve = "altitude; the fainter curve is the Moon's"

// moonWords says which of the two curves is the Moon's.
func (s Status) moonWords() []string {
	n, zone := s.Tonight.Night, s.Zone()
	moon := s.Run.Moon
	lit := fmt.Sprintf(moonCurve+", %.0f %% lit", 100*moon.Illuminated)
	when := ""
	switch {
	case moon.Altitude > 0 && n.Moonset.OK && n.Moonset.At.After(s.Now):
		when = ", down at " + words.Minute(n.Moonset.At, zone)
	case moon.Altitude <= 0 && n.Moonrise.OK && n.Moonrise.At.After(s.Now):
		when = ", up at " + words.Minute(n.Moonrise.At, zone)
	}
	return []string{lit + when, lit}
}

// Angles draws the derotator's angle run by run, above the strip and by its time.
func (s Status) Angles(area draw.Area) {
	if area.Height() < LeastCurves {
		return
	}
	span, d := s.Tonight.Span(), s.Kit.Derotator
	v := draw.PlotValues{From: span.From, To: span.To, Low: d.Min.Degrees(), High: d.Max.Degrees(), Now: s.Now,
		Heights: []draw.PlotTick{{Value: d.Min.Degrees(), Label: heightLabel(d.Min)},
			{Value: d.Max.Degrees(), Label: heightLabel(d.Max)}}}
	c := draw.PlotCurve{Role: theme.Text}
	for _, t := range s.Tonight.Angles() {
		c.Points = append(c.Points, draw.PlotPoint{At: t.At, Value: t.Angle.Degrees(), Gap: t.First})
	}
	v.Curves = []draw.PlotCurve{c}
	draw.Plot(overStrip(area), s.Charset, v)
	area.PutRight(area.Width()-edgeOfStrip, area.Height()-1, theme.Faint,
		layout.Longest(area.Width()/2, "the derotator's angle, run by run", "derotator"))
}
