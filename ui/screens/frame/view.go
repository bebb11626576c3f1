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
	view{r, screens.ShownIn(s, w)}.draw(w.Area)
}

// view is the room with the status of an instant, for drawing.
type view struct {
	Model
	screens.Shown
}

func (m view) draw(area draw.Area) {
	body, header := m.Body(area, 0)
	if width := pictureWidth(body.Width(), body.Height()); width > 0 {
		list := body.Area(0, 0, body.Width()-width-3, body.Height())
		m.drawFrameWords(list, header)
		screens.RuleDown(body, list.Width()+1)
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

// pictureWidth is how wide the field is drawn beside the words: over half of a narrow window, over two thirds of one
// that leaves the words room enough; 0 where both don't fit.
func pictureWidth(width, height int) int {
	const words = 44 // columns that the words need in a large window
	half := screens.DomeWidth(width, height)
	if half == 0 {
		return 0
	}
	return max(half, min(width*2/3, width-words-3))
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
		if len(said.Rows) > 0 {
			lines = drawRows(area.Area(0, area.Height(), area.Width(), 0), 0, said) // drawn nowhere, for its height
		}
		if y+lines > area.Height() {
			return
		}
		if len(said.Rows) > 0 {
			y += drawRows(area, y, said)
			continue
		}
		y += layout.Paragraph(area, y, said.Role, said.Text)
	}
}

// drawRows writes facts with their names at the left, and returns how many rows that took.
func drawRows(area draw.Area, y int, said field.Sentence) (rows int) {
	const name = 16
	for _, row := range said.Rows {
		area.Put(0, y+rows, theme.Faint, row[0])
		rows += layout.Paragraph(area.Area(name, 0, area.Width()-name, area.Height()), y+rows, said.Role, row[1])
	}
	return rows
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
