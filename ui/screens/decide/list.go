package decide

import (
	"fmt"
	"strings"
	"time"

	"duskhand/plan/choose"
	"duskhand/sky/catalog"
	"duskhand/ui/draw"
	"duskhand/ui/layout"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

// The ranked targets, and why the chosen one stands where it does.

// hoursText prints a length of time in hours and minutes, as narrow as the big digits.
func hoursText(d time.Duration) string {
	minutes := int(d.Round(time.Minute).Minutes())
	return fmt.Sprintf("%dh%02d", minutes/60, minutes%60)
}

// choiceColumn is a column of the list, with the width of the list from which it is shown.
type choiceColumn struct {
	draw.TableColumn
	from int
	cell func(choose.Choice) string
}

func choiceColumns() []choiceColumn {
	right := func(title string, width int) draw.TableColumn {
		return draw.TableColumn{Title: title, Width: width, Align: draw.AlignRight}
	}
	return []choiceColumn{
		{draw.TableColumn{Title: "target"}, 0, func(c choose.Choice) string { return c.Target.Called() }},
		{draw.TableColumn{Title: "kind", Width: 18}, 90,
			func(c choose.Choice) string { return c.Target.Object.Type }},
		{right("subs", 5), 0, func(c choose.Choice) string { return hoursText(c.Working) }},
		{right("worth", 5), 48, func(c choose.Choice) string { return hoursText(c.Worth) }},
		{right("rewinds", 7), 84, func(c choose.Choice) string { return fmt.Sprint(c.Rewinds) }},
		{right("lost", 4), 70, func(c choose.Choice) string { return lostShare(c, choose.ByTurning) }},
		{right("Moon", 4), 63, func(c choose.Choice) string { return lostShare(c, choose.ByMoon) }},
		{draw.TableColumn{Title: "size", Width: 6}, 60, sizeWords},
	}
}

// lostShare is what a factor takes of the time, "" if nothing.
func lostShare(c choose.Choice, of choose.Reason) string {
	if lost := 100 * (1 - c.Factors[of].Share); lost >= 0.5 {
		return fmt.Sprintf("%.0f %%", lost)
	}
	return ""
}

func sizeWords(c choose.Choice) string {
	switch {
	case c.Size.Fit == choose.NotKnown:
		return "?"
	case c.Size.Fit == choose.Larger:
		return fmt.Sprintf("%d × %d", c.Size.Columns, c.Size.Rows)
	}
	return c.Size.Fit.String()
}

func (m view) drawChoices(area draw.Area) {
	if !m.isRanked() || area.Height() <= 0 {
		return
	}
	var columns []choiceColumn
	v := draw.TableValues{Chosen: m.place}
	for _, column := range choiceColumns() {
		if area.Width() >= column.from {
			columns, v.Columns = append(columns, column), append(v.Columns, column.TableColumn)
		}
	}
	choices := m.listed().answer.Choices
	v.First = draw.TableFirst(max(0, m.place-area.Height()/2), m.place, len(choices), area.Height())
	last := min(len(choices), v.First+area.Height())
	v.Rows = make([][]string, len(choices)) // those out of sight stay empty
	for i := v.First; i < last; i++ {
		for _, column := range columns {
			v.Rows[i] = append(v.Rows[i], column.cell(choices[i]))
		}
	}
	draw.Table(area, m.Charset, v)
}

// reasons are the chosen target's factors in words, and what to do with it.
func (m view) reasons() (lines []string) {
	choice, ok := m.choice()
	if !ok {
		return nil
	}
	what := choice.Target.Called()
	if o := choice.Target.Object; o.ID != "" {
		what += ": " + o.Type + " in " + catalog.ConstellationName(o.Constellation)
	}
	lines = append(lines, what)
	for _, f := range choice.Factors {
		if said := say.Factor(choice, f, m.Kit); said != "" {
			lines = append(lines, sentence(said))
		}
	}
	if choice.Target.Name == m.Tonight.Target.Name {
		return append(lines, "It is tonight's target.")
	}
	return append(lines, "t: take it for tonight.")
}

// sentence makes a sentence of a clause.
func sentence(clause string) string {
	first := []rune(clause)[:1]
	return strings.ToUpper(string(first)) + clause[len(string(first)):] + "."
}

func (m view) reasonRows(area draw.Area) (rows int) {
	for _, line := range m.reasons() {
		rows += layout.RowsOf(area, line)
	}
	return rows
}

// drawReasons returns the rows taken.
func (m view) drawReasons(area draw.Area) (rows int) {
	for i, line := range m.reasons() {
		role := theme.Text
		if i == 0 {
			role = theme.Faint
		}
		if rows == 0 || rows+layout.RowsOf(area, line) <= area.Height() {
			rows += layout.Paragraph(area, rows, role, line)
		}
	}
	return rows
}
