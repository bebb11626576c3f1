// Package frame is the screen "Frame": is it where I want it?
package frame

import (
	"duskhand/ui/draw"
	field "duskhand/ui/frame"
	"duskhand/ui/keys"
	"duskhand/ui/layout"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

// leastFieldRows is how many rows a drawing of the field wants below text; fewer show nothing.
const leastFieldRows = 8

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
	header, footer := min(2, max(0, area.Height()-4)), m.footer.Rows()
	m.Header(layout.Slice(area, layout.Band{Top: 0, Height: header}))
	m.footer.Draw(layout.Slice(area, layout.Band{Top: area.Height() - footer, Height: footer}))
	body := layout.Slice(area, layout.Band{Top: header, Height: max(0, area.Height()-header-footer)})
	width := screens.DomeWidth(body.Width(), body.Height())
	if width > 0 {
		list := body.Area(0, 0, body.Width()-width-2, body.Height())
		m.drawFrameWords(list, header)
		m.drawField(body.Area(body.Width()-width, 0, width, body.Height()))
		return
	}
	rows := max(0, body.Height()-leastFieldRows)
	if rows < 4 {
		rows = body.Height()
	}
	m.drawFrameWords(body.Area(0, 0, body.Width(), min(rows, body.Height())), header)
	m.drawField(body.Area(0, rows, body.Width(), body.Height()-rows))
}

// drawFrameWords writes the answer and below it what is known, the more important first; what does not fit
// is left out whole.
func (m view) drawFrameWords(area draw.Area, header int) {
	y := m.drawFrameAnswer(area, header)
	if m.draft != nil && y < area.Height() {
		y += layout.Paragraph(area, y, theme.Caution,
			layout.Longest(area.Width(), "not kept yet: "+m.Status.Keys.Shown(keys.KeepFraming)+" keeps it, "+m.Status.Keys.Shown(keys.DropFraming)+" drops it", m.Status.Keys.Shown(keys.KeepFraming)+" keeps it"))
	}
	for _, said := range m.told(m.Status).Sentences() {
		lines := layout.RowsOf(area, said.Text)
		if y+lines > area.Height() {
			return
		}
		y += layout.Paragraph(area, y, said.Role, said.Text)
	}
}

// frameTold is the framing with what its sentences need.
func (r Model) told(s screens.Status) field.Told {
	return field.Told{Frame: r.facts, Run: s.Run, View: r.looks, Seen: r.seen}
}

// roomyFrame is the height from which the angle is written in big digits.
const roomyFrame = 30

func (m view) drawFrameAnswer(area draw.Area, header int) (rows int) {
	number, ways := m.told(m.Status).Answer()
	if area.Height() < roomyFrame || number == "" {
		area.Put(0, 0, theme.Answer, layout.Longest(area.Width(),
			m.Marked(layout.Band{Top: 0, Height: header}, ways)...))
		return 1
	}
	scale := min(2, draw.FitBigText("000.0°", area.Width(), area.Height()/3))
	_, rows = draw.BigTextScaled(area, m.Charset, theme.Answer, scale, number)
	area.Put(0, rows, theme.Text, layout.Longest(area.Width(),
		m.Marked(layout.Band{Top: 0, Height: header}, ways)...))
	return rows + 2
}

func (m view) drawField(area draw.Area) {
	if area.Height() < leastFieldRows {
		return
	}
	values := m.looks.Field(m.facts, draw.FieldWidth(area.Width(), area.Height()))
	draw.Field(area, m.Charset, values)
}
