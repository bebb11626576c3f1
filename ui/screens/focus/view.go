// Package focus is the screen "Focus star": which one, and is it time again?
package focus

import (
	"fmt"

	"duskhand/plan"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/layout"
	"duskhand/ui/say"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

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
	dome := screens.DomeWidth(body.Width(), body.Height())
	list := body.Area(0, 0, body.Width()-dome-min(dome, 2), body.Height())
	y := m.drawFocusAnswer(list, header) + 1
	y += m.drawDrifts(list, y) + 1
	m.drawFocusTable(list.Area(0, y, list.Width(), list.Height()-y))
	v := m.Dome()
	if m.chosen < len(m.Stars.Focus) {
		v = screens.Named(v, theme.Answer, &m.Stars.Focus[m.chosen].Candidate)
	}
	draw.Dome(body.Area(body.Width()-dome, 0, dome, body.Height()), m.Charset, v)
}

// drawFocusAnswer names the chosen star and returns the rows taken.
func (m view) drawFocusAnswer(area draw.Area, header int) int {
	if len(m.Stars.Focus) == 0 {
		area.Put(0, 0, theme.Answer, m.Marked(layout.Band{Top: 0, Height: header},
			[]string{"No star to focus on now"})[0])
		return 1 + layout.Paragraph(area, 1, theme.Text, say.NoFocus(m.Stars.Sky, m.Stars.WhyNot))
	}
	star := m.Stars.Focus[m.chosen]
	area.Put(0, 0, theme.Answer, layout.Longest(area.Width(),
		m.Marked(layout.Band{Top: 0, Height: header}, []string{star.Star.Name() + ", " + m.focusFor(star)})...))
	y := 1
	y += screens.DrawCandidate(area, y, "", &star.Candidate)
	y += layout.Paragraph(area, y, theme.Text, say.FocusStar(m.Stars.Sky, star))
	return y
}

// focusFor says which telescopes a star will serve.
func (m view) focusFor(star plan.Focus) string {
	in := func(list []plan.Focus) bool {
		for _, f := range list {
			if f.Star.ID == star.Star.ID {
				return true
			}
		}
		return false
	}
	switch {
	case !m.Stars.HasGuide:
		return "for the telescope"
	case in(m.Stars.Main) && in(m.Stars.Guide):
		return "for both telescopes"
	}
	return "for the main telescope"
}

// drawDrifts tells of the focus of both telescopes and returns the rows taken.
func (m view) drawDrifts(area draw.Area, y int) int {
	rows := m.drawDrift(area, y, "main", m.Tonight.DriftOf(plan.MainTelescope(m.Kit.Optics)))
	if guide, ok := plan.GuideTelescope(m.Kit.Optics); ok {
		rows += m.drawDrift(area, y+rows, "guide", m.Tonight.DriftOf(guide))
	}
	return rows
}

func (m view) drawDrift(area draw.Area, y int, what string, d facts.Drift) int {
	role := theme.Text
	text := fmt.Sprintf("%s: focus holds within ±%.0f µm", what, d.ZoneUM/2)
	switch {
	case m.Log.Focused == nil:
		text += "; say when it is focused"
	case m.Log.Focused.TempC == nil:
		text += fmt.Sprintf("; focused at %s, temperature not read",
			words.Minute(m.Log.Focused.At, m.Zone()))
	case d.Known && d.Used >= 1:
		role = theme.Call
		text = fmt.Sprintf("%s: FOCUS AGAIN: %s now, %s when it was focused, %s of the tolerance used", what, words.Celsius(d.NowC, 1), words.Celsius(d.FocusedC, 1), words.Percent(d.Used, 0))
	case d.Known:
		text += fmt.Sprintf("; %s used, good from %s to %s", words.Percent(d.Used, 0), words.Number(d.Holds.BelowC, 1),
			words.Celsius(d.Holds.AboveC, 1))
		if d.RefocusBy.OK {
			text += "; as it cools, until " + words.Minute(d.RefocusBy.At, m.Zone())
		}
	}
	return layout.Paragraph(area, y, role, text)
}

func (m view) drawFocusTable(area draw.Area) {
	v := draw.TableValues{Columns: []draw.TableColumn{{Title: "star", Width: 0},
		{Title: "mag", Width: 5, Align: draw.AlignRight},
		{Title: "up", Width: 4, Align: draw.AlignRight}, {Title: "to target", Width: 9,
			Align: draw.AlignRight}}, Chosen: m.chosen}
	for _, f := range m.Stars.Focus {
		v.Rows = append(v.Rows, []string{f.Star.Name(), words.Number(f.Star.Magnitude.Value, 1),
			words.Degrees(f.Place.Altitude, 0), words.Direction(f.ToTarget, 0)})
	}
	v.First = draw.TableFirst(max(0, m.chosen-area.Height()/2), m.chosen, len(v.Rows), area.Height())
	draw.Table(area, m.Charset, v)
}
