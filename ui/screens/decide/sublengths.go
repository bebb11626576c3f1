package decide

import (
	"fmt"

	advice "duskhand/plan/exposure" // exposure is a word of this package already
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/layout"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

// How long the subs of the chosen target should be.

// drawSubLengths returns the rows taken.
func (m view) drawSubLengths(area draw.Area) (rows int) {
	choice, ok := m.choice()
	if !ok {
		return 0
	}
	s := m.subs
	if !s.OK {
		return layout.Paragraph(area, 0, theme.Text,
			choice.Target.Name+" can't be used any more tonight: there is no sub length to give.")
	}
	area.Put(0, 0, theme.Faint, layout.Longest(area.Width(),
		fmt.Sprintf("Subs of %s that begin at %s", choice.Target.Name, words.MinuteFrom(s.At, m.Zone())),
		"Subs from "+words.MinuteFrom(s.At, m.Zone())))
	table := area.Area(0, 1, area.Width(), min(len(s.Filters)+1, area.Height()-1))
	m.drawSubTable(table, s)
	rows = 1 + table.Height()
	lacking := len(s.Lacks()) > 0
	for i, words := range say.SubLengths(s) {
		role := theme.Text
		if lacking && i == 0 {
			role = theme.Caution
		}
		if rows+layout.RowsOf(area, words) <= area.Height() {
			rows += layout.Paragraph(area, rows, role, words)
		}
	}
	return rows
}

func (m view) drawSubTable(area draw.Area, s facts.SubLengths) {
	right := func(title string, width int) draw.TableColumn {
		return draw.TableColumn{Title: title, Width: width, Align: draw.AlignRight}
	}
	v := draw.TableValues{Chosen: -1, Columns: []draw.TableColumn{{Title: "filter"}, right("kit's", 6),
		right("least", 6), right("no Moon", 7), right("reading", 7), right("full at", 8)}}
	const all = 50
	if area.Width() < all {
		v.Columns = v.Columns[:3]
	}
	for _, a := range s.Filters {
		row := []string{a.Filter.Name, words.Exposure(a.Filter.Exposure),
			figureText(a.Shortest, words.ExposureAtLeast), figureText(a.ShortestDark, words.ExposureAtLeast),
			figureText(a.ReadNoise, func(x float64) string { return words.Percent(x, 1) }),
			figureText(a.Saturates, func(x float64) string { return "mag " + words.Number(x, 1) })}
		v.Rows = append(v.Rows, row[:len(v.Columns)])
	}
	draw.Table(area, m.Charset, v)
}

// figureText prints a figure, ? if the kit lacks what it needs, and a dash if there is no such thing.
func figureText[T any](f advice.Figure[T], words func(T) string) string {
	switch {
	case f.OK:
		return words(f.Value)
	case len(f.Lacks) > 0:
		return "?"
	}
	return "-"
}
