// Package night is the screen "Night": is tonight going to plan?
package night

import (
	"fmt"
	"time"

	"duskhand/checklist/advice"
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
			screens.AnswerRows(m.Width, min(m.Height, max(24, m.Height*2/3))), 1, 0), layout.NewPart("label", 1, 1, 1), layout.NewPart("notes", notes, min(1, notes), 5), layout.NewPart("altitude", 5+extra/3, 4, 7), layout.NewPart("angle", 4+extra/3, 4, 8),
		layout.NewPart("strip", 2, 1, 3), layout.NewPart("table", min(rows+1, 4+extra), 2,
			5), layout.NewPart("footer", m.Footer.Rows(), 1, m.Footer.Rank(4)),
	}
}

// View draws the screen.
func (r Model) View(s screens.Status, w screens.Window) {
	view{r, screens.ShownIn(s, w)}.draw(w.Area)
}

// view is the room with the status of an instant, for drawing.
type view struct {
	Model
	screens.Shown
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
	m.Altitudes(part("altitude"))
	m.Angles(part("angle"))
	m.Strip(part("strip"))
	m.drawTable(part("table"), table)
	m.Footer.Draw(part("footer"))
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
