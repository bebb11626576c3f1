package decide

import (
	"duskhand/ui/draw"
	"duskhand/ui/layout"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

// Whether the night lasts: dry glass, disk and battery.

// drawSupplies returns the rows taken.
func (m view) drawSupplies(area draw.Area) (rows int) {
	s := m.supplies
	for _, told := range say.Supplies(s) {
		role := theme.Text
		if told.Urgent {
			role = theme.Caution
		}
		if rows == 0 || rows+layout.RowsOf(area, told.Text) <= area.Height() {
			rows += layout.Paragraph(area, rows, role, told.Text)
		}
	}
	const label, least = "battery, sunset to sunrise ", 10
	room := area.Width() - draw.Width(label)
	if len(s.Left) == 0 || rows >= area.Height() || room < least {
		return rows
	}
	area.Put(0, rows, theme.Faint, label)
	width := min(room, len(s.Left))
	samples := make([]draw.Sample, width)
	for i := range samples {
		left := s.Left[i*(len(s.Left)-1)/max(1, width-1)]
		samples[i] = draw.Sample{Value: left, Missing: left == 0}
	}
	draw.Sparkline(area.Area(draw.Width(label), rows, width, 1), m.Charset, theme.Text, samples, 0, 1)
	return rows + 1
}
