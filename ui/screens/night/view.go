// Package night is the screen "Night": is tonight going to plan?
package night

import (
	"fmt"
	"strings"
	"time"

	"duskhand/checklist/advice"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/layout"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

func (m view) nightParts(notes, rows int) []layout.Part {
	extra := max(0, m.Height-24)
	return []layout.Part{
		layout.NewPart("header", 2, 1, 6), layout.NewPart("answer",
			screens.AnswerRows(m.Width, min(m.Height,
				24)), 1, 0), layout.NewPart("label", 1, 1, 1), layout.NewPart("notes", notes, min(1, notes), 5), layout.NewPart("altitude", 5+extra/3, 4, 7), layout.NewPart("angle", 4+extra/3, 4, 8),
		layout.NewPart("strip", 2, 1, 3), layout.NewPart("table", min(rows+1, 4+extra), 2,
			5), layout.NewPart("footer", m.footer.Rows(), 1, m.footer.Rank(4)),
	}
}

// View draws the screen.
func (r Model) View(s screens.Status, w screens.Window) {
	view{r, s, w.Footer}.draw(w.Area)
}

// view is the room with the status of an instant, for drawing.
type view struct {
	Model
	screens.Status
	footer screens.Footer
}

func (m view) draw(area draw.Area) {
	rows, notes, table := m.Tonight.Rows(), m.notes(), m.tableRows()
	bands := layout.Stack(area.Height(), m.nightParts(len(notes), len(table)), "table")
	part := func(name string) draw.Area { return layout.Slice(area, bands[name]) }
	m.Header(part("header"))
	text, label := m.nightAnswer(rows)
	answer := part("answer")
	draw.BigText(answer, m.Charset, theme.Answer, text)
	layout.Put(part("label"), theme.Need, m.Marked(bands["header"], label)...)
	for i, ways := range notes {
		layout.Put(layout.Slice(part("notes"), layout.Band{Top: i, Height: 1}), theme.Text, ways...)
	}
	m.drawAltitudes(part("altitude"))
	m.drawAngles(part("angle"))
	m.Strip(part("strip"))
	m.drawTable(part("table"), table)
	m.footer.Draw(part("footer"))
}

// nightAnswer is the time of subs that the night still gives, and how that compares with the plan as it
// was at dusk.
func (m view) nightAnswer(rows []advice.RunRow) (text string, label []string) {
	text, _ = words.Countdown(m.Run.SubsLeft())
	planned := m.Tonight.PlannedExposed()
	if len(m.Tonight.Windows) == 0 {
		return "NONE", m.Voice().WhyNone()
	}
	done := m.Run.TakenExposed()
	lost := planned - done - m.Run.SubsLeft()
	how := "as planned at dusk"
	if lost > facts.WorthTelling {
		how = words.Lasting(lost) + " less than planned at dusk"
	}
	runs := 0
	for _, row := range rows {
		if row.To.After(m.Now) {
			runs++
		}
	}
	unit := "of subs still to come tonight"
	return text, []string{
		fmt.Sprintf("%s in %s; %s taken; %s", unit, words.Count(runs, "run"), words.Lasting(done), how),
		fmt.Sprintf("%s; %s", unit, how),
		unit,
	}
}

// edgeOfStrip is the width of the words dusk and dawn at the ends of the strip, with a blank; curves
// above it keep off them, so that an instant is at one column everywhere.
const edgeOfStrip = 5

func overStrip(area draw.Area) draw.Area {
	return area.Area(0, 0, area.Width()-edgeOfStrip, area.Height())
}

// heightLabel is an angle in as many cells as the strip's edge, less the axis of the curves.
func heightLabel(a sky.Angle) string { return fmt.Sprintf("%4s", words.Signed(a)) }

func (m view) drawAltitudes(area draw.Area) {
	span := m.Tonight.Span()
	v := draw.PlotValues{From: span.From, To: span.To, Low: 0, High: 90, Now: m.Now,
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
	curve(theme.Faint, m.Tonight.Moon())
	curves := m.Tonight.Curves()
	for _, c := range curves {
		role := theme.Text
		if c.Present && len(curves) > 1 {
			role = theme.Answer
		}
		curve(role, c.Heights)
	}
	draw.Plot(overStrip(area), m.Charset, v)
	room := area.Width() / 2
	if len(curves) > 1 {
		room = area.Width() * 2 / 3
	}
	area.PutRight(area.Width()-edgeOfStrip, 0, theme.Faint, layout.Longest(room, m.curveWords(curves)...))
}

// curveWords says whose the curves are, the longest way first.
func (m view) curveWords(curves []facts.Curve) []string {
	moon := m.moonWords()
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
	names := brightest + others + ", then the Moon"
	return []string{names + strings.TrimPrefix(moon[0], moonCurve), names + strings.TrimPrefix(moon[1], moonCurve), names, moon[1]}
}

// moonCurve begins the words for the Moon's curve.
const moonCurve = "fainter curve: the Moon"

// moonWords says which of the two curves is the Moon's.
func (m view) moonWords() []string {
	n, zone := m.Tonight.Night, m.Zone()
	moon := m.Run.Moon
	lit := fmt.Sprintf(moonCurve+", %.0f %% lit", 100*moon.Illuminated)
	when := ""
	switch {
	case moon.Altitude > 0 && n.Moonset.OK && n.Moonset.At.After(m.Now):
		when = ", down at " + words.Minute(n.Moonset.At, zone)
	case moon.Altitude <= 0 && n.Moonrise.OK && n.Moonrise.At.After(m.Now):
		when = ", up at " + words.Minute(n.Moonrise.At, zone)
	}
	return []string{lit + when, lit}
}

func (m view) drawAngles(area draw.Area) {
	span, d := m.Tonight.Span(), m.Kit.Derotator
	v := draw.PlotValues{From: span.From, To: span.To, Low: d.Min.Degrees(), High: d.Max.Degrees(), Now: m.Now,
		Heights: []draw.PlotTick{{Value: d.Min.Degrees(), Label: heightLabel(d.Min)},
			{Value: d.Max.Degrees(), Label: heightLabel(d.Max)}}}
	c := draw.PlotCurve{Role: theme.Text}
	for _, t := range m.Tonight.Angles() {
		c.Points = append(c.Points, draw.PlotPoint{At: t.At, Value: t.Angle.Degrees(), Gap: t.First})
	}
	v.Curves = []draw.PlotCurve{c}
	draw.Plot(overStrip(area), m.Charset, v)
	area.PutRight(area.Width()-edgeOfStrip, 0, theme.Faint,
		layout.Longest(area.Width()/2, "the derotator's angle, run by run", "derotator"))
}

func rowLimit(m view, row advice.RunRow) string {
	l, zone := row.Limit, m.Zone()
	if !l.At.OK || !l.Early.OK || l.At.At.After(m.Tonight.Night.Span.To) {
		return "none"
	}
	if !l.Late.OK {
		return words.Minute(l.At.At, zone) + " (" + words.Minute(l.Early.At, zone) + "–never)"
	}
	return fmt.Sprintf("%s (%s–%s)", words.Minute(l.At.At, zone), words.Minute(l.Early.At, zone),
		words.MinuteFrom(l.Late.At, zone))
}

// rowState says whether a run is over, going on or planned, and what came before it.
func rowState(m view, row advice.RunRow) string {
	state := "over"
	switch {
	case row.Open:
		state = "now"
	case row.Planned:
		state = "planned"
	}
	if row.Target != m.Tonight.Target.Name {
		state += ", " + row.Target
	}
	switch {
	case row.RewindTakes >= time.Second:
		state += ", rewind " + words.Lasting(row.RewindTakes)
	case row.Rewound:
		state += ", rewound before"
	}
	return state
}
