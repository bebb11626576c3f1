package ui

import (
	"fmt"
	"time"

	"duskhand/checklist/advice"
	"duskhand/sky"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/theme"
)

// The Night screen: is tonight going to plan?

func (m Model) nightParts(rows int) []part {
	extra := max(0, m.height-24)
	return []part{
		{"header", 2, 1, 6}, {"answer", answerRows(m.width, min(m.height, 24)), 1, 0}, {"label", 1, 1, 1}, {"altitude", 5 + extra/3, 4, 7}, {"angle", 4 + extra/3, 4, 8},
		{"strip", 2, 1, 3}, {"table", min(rows+1, 4+extra), 2, 5}, {"footer", m.footerRows(), 1, m.footerRank(4)},
	}
}

func (m Model) drawNight(area draw.Area) {
	rows := m.tonight.Rows()
	bands := stack(area.Height(), m.nightParts(len(rows)), "table")
	part := func(name string) draw.Area { return slice(area, bands[name]) }
	m.drawHeader(part("header"))
	text, label := m.nightAnswer(rows)
	answer := part("answer")
	draw.BigText(answer, m.config.Charset, theme.Answer, text)
	put(part("label"), theme.Text, m.marked(bands["header"], label)...)
	m.drawAltitudes(part("altitude"))
	m.drawAngles(part("angle"))
	m.drawStrip(part("strip"))
	m.drawTable(part("table"), rows)
	m.drawFooter(part("footer"))
}

// nightAnswer is the time of subs that the night still gives, and how that compares with the plan as it
// was at dusk.
func (m Model) nightAnswer(rows []advice.RunRow) (text string, label []string) {
	text, _ = countdown(m.run.SubsLeft())
	planned := m.tonight.PlannedExposed()
	if len(m.tonight.Windows) == 0 {
		return "NONE", m.voice().WhyNone()
	}
	done := m.run.TakenExposed()
	lost := planned - done - m.run.SubsLeft()
	how := "as planned at dusk"
	if lost > facts.WorthTelling {
		how = duration(lost) + " less than planned at dusk"
	}
	runs := 0
	for _, row := range rows {
		if row.To.After(m.now) {
			runs++
		}
	}
	unit := "of subs still to come tonight"
	return text, []string{
		fmt.Sprintf("%s in %s; %s taken; %s", unit, facts.RunsText(runs), duration(done), how),
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
func heightLabel(a sky.Angle) string { return fmt.Sprintf("%4s", degreesText(a)) }

func (m Model) drawAltitudes(area draw.Area) {
	span := m.tonight.Span()
	v := draw.PlotValues{From: span.From, To: span.To, Low: 0, High: 90, Now: m.now,
		Heights: []draw.PlotTick{{Value: 0, Label: "  0°"}, {Value: 45, Label: " 45°"}, {Value: 90, Label: " 90°"}}}
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
	curve(theme.Faint, m.tonight.Moon())
	curve(theme.Text, m.tonight.Altitudes())
	draw.Plot(overStrip(area), m.config.Charset, v)
	area.PutRight(area.Width()-edgeOfStrip, 0, theme.Faint, longestThatFits(area.Width()/2, m.moonWords()...))
}

// moonWords says which of the two curves is the Moon's.
func (m Model) moonWords() []string {
	n, zone := m.tonight.Night, m.config.Kit.Site.Zone
	moon := m.run.Moon
	lit := fmt.Sprintf("fainter curve: the Moon, %.0f %% lit", 100*moon.Illuminated)
	when := ""
	switch {
	case moon.Altitude > 0 && n.Moonset.OK && n.Moonset.At.After(m.now):
		when = ", down at " + hourMinute(n.Moonset.At, zone)
	case moon.Altitude <= 0 && n.Moonrise.OK && n.Moonrise.At.After(m.now):
		when = ", up at " + hourMinute(n.Moonrise.At, zone)
	}
	return []string{lit + when, lit}
}

func (m Model) drawAngles(area draw.Area) {
	span, d := m.tonight.Span(), m.config.Kit.Derotator
	v := draw.PlotValues{From: span.From, To: span.To, Low: d.Min.Degrees(), High: d.Max.Degrees(), Now: m.now,
		Heights: []draw.PlotTick{{Value: d.Min.Degrees(), Label: heightLabel(d.Min)}, {Value: d.Max.Degrees(), Label: heightLabel(d.Max)}}}
	c := draw.PlotCurve{Role: theme.Text}
	for _, t := range m.tonight.Angles() {
		c.Points = append(c.Points, draw.PlotPoint{At: t.At, Value: t.Angle.Degrees(), Gap: t.First})
	}
	v.Curves = []draw.PlotCurve{c}
	draw.Plot(overStrip(area), m.config.Charset, v)
	area.PutRight(area.Width()-edgeOfStrip, 0, theme.Faint, longestThatFits(area.Width()/2, "the derotator's angle, run by run", "derotator"))
}

func (m Model) drawTable(area draw.Area, rows []advice.RunRow) {
	zone := m.config.Kit.Site.Zone
	columns := []draw.TableColumn{{Title: "run", Width: 5}, {Title: "from", Width: 6}, {Title: "to", Width: 6}, {Title: "limit (early–late)", Width: 20},
		{Title: "angle", Width: 15}, {Title: "camera", Width: 7, Align: draw.AlignRight}, {Title: "subs", Width: 5, Align: draw.AlignRight}, {Title: "", Width: 0}}
	if area.Width() < 60 {
		columns = []draw.TableColumn{columns[0], columns[1], columns[2], {Title: "angle", Width: 15}, {Title: "subs", Width: 4, Align: draw.AlignRight}}
	}
	v := draw.TableValues{Columns: columns, Chosen: -1}
	for i, row := range rows {
		cells := []string{fmt.Sprint(i + 1), hourMinute(row.From, zone), hourMinute(row.To, zone), rowLimit(m, row),
			tenths(row.StartAngle) + " → " + tenths(row.EndAngle), wholeDegrees(row.CameraAngle), fmt.Sprint(row.Subs), rowState(m, row)}
		if area.Width() < 60 {
			cells = []string{cells[0], cells[1], cells[2], cells[4], cells[6]}
		}
		v.Rows = append(v.Rows, cells)
		if row.Open {
			v.Chosen = i
		}
	}
	v.First = min(m.scroll, max(0, len(rows)-1))
	if m.scroll == 0 && v.Chosen >= 0 {
		v.First = draw.TableFirst(0, v.Chosen, len(rows), area.Height())
	}
	draw.Table(area, m.config.Charset, v)
}

func rowLimit(m Model, row advice.RunRow) string {
	l, zone := row.Limit, m.config.Kit.Site.Zone
	if !l.At.OK || !l.Early.OK || l.At.At.After(m.tonight.Night.Span.To) {
		return "none"
	}
	if !l.Late.OK {
		return hourMinute(l.At.At, zone) + " (" + hourMinute(l.Early.At, zone) + "–never)"
	}
	return fmt.Sprintf("%s (%s–%s)", hourMinute(l.At.At, zone), hourMinute(l.Early.At, zone), hourMinuteUp(l.Late.At, zone))
}

// rowState says whether a run is over, going on or planned, and what came before it.
func rowState(m Model, row advice.RunRow) string {
	state := "over"
	switch {
	case row.Open:
		state = "now"
	case row.Planned:
		state = "planned"
	}
	if row.Target != m.tonight.Target.Name {
		state += ", " + row.Target
	}
	switch {
	case row.RewindTakes >= time.Second:
		state += ", rewind " + duration(row.RewindTakes)
	case row.Rewound:
		state += ", rewound before"
	}
	return state
}
