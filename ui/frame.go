package ui

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"duskhand/checklist"
	"duskhand/plan/framing"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/frame"
	"duskhand/ui/keys"
	"duskhand/ui/theme"
)

// The screen "Frame": is it where I want it?

// framer is what the Frame screen keeps between frames.
type framer struct {
	facts facts.Frame
	draft *checklist.Framing // what the keys have made of the framing and the journal does not have yet
	idle  int                // seconds since the last of those keys
	view  frame.View
	seen  framing.Pixel // where the operator saw the object in the picture
}

// deriveFrame computes the framing anew while its screen shows.
func (m Model) deriveFrame() Model {
	if m.tonight == nil || m.screen != keys.FrameScreen {
		return m
	}
	m.frame.facts = m.run.FrameAt(m.framing())
	return m
}

// framing is the draft, or else what stands.
func (m Model) framing() checklist.Framing {
	if m.frame.draft != nil && m.frame.draft.Target == m.tonight.Target.Name {
		return *m.frame.draft
	}
	return m.tonight.FramingOf()
}

// leastFieldRows is how many rows a drawing of the field wants below text; fewer show nothing.
const leastFieldRows = 8

func (m Model) drawFrame(area draw.Area) {
	header, footer := min(2, max(0, area.Height()-4)), m.footerRows()
	m.drawHeader(slice(area, band{0, header}))
	m.drawFooter(slice(area, band{area.Height() - footer, footer}))
	body := slice(area, band{header, max(0, area.Height()-header-footer)})
	width := domeWidth(body.Width(), body.Height())
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
func (m Model) drawFrameWords(area draw.Area, header int) {
	y := m.drawFrameAnswer(area, header)
	if m.frame.draft != nil && y < area.Height() {
		y += paragraph(area, y, theme.Caution, longestThatFits(area.Width(), "not kept yet: "+m.keys.Shown(keys.KeepFraming)+" keeps it, "+m.keys.Shown(keys.DropFraming)+" drops it", m.keys.Shown(keys.KeepFraming)+" keeps it"))
	}
	for _, said := range m.frameTold().Sentences() {
		lines := strings.Count(ansi.Wordwrap(said.Text, max(1, area.Width()), ""), "\n") + 1
		if y+lines > area.Height() {
			return
		}
		y += paragraph(area, y, said.Role, said.Text)
	}
}

// frameTold is the framing with what its sentences need.
func (m Model) frameTold() frame.Told {
	return frame.Told{Frame: m.frame.facts, Run: m.run, View: m.frame.view, Seen: m.frame.seen}
}

// roomyFrame is the height from which the angle is written in big digits.
const roomyFrame = 30

func (m Model) drawFrameAnswer(area draw.Area, header int) (rows int) {
	number, ways := m.frameTold().Answer()
	if area.Height() < roomyFrame || number == "" {
		area.Put(0, 0, theme.Answer, longestThatFits(area.Width(), m.marked(band{0, header}, ways)...))
		return 1
	}
	scale := min(2, draw.FitBigText("000.0°", area.Width(), area.Height()/3))
	_, rows = draw.BigTextScaled(area, m.config.Charset, theme.Answer, scale, number)
	area.Put(0, rows, theme.Text, longestThatFits(area.Width(), m.marked(band{0, header}, ways)...))
	return rows + 2
}

func (m Model) drawField(area draw.Area) {
	if area.Height() < leastFieldRows {
		return
	}
	values := m.frame.view.Field(m.frame.facts, draw.FieldWidth(area.Width(), area.Height()))
	draw.Field(area, m.config.Charset, values)
}
