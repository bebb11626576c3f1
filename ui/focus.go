package ui

import (
	"fmt"

	"duskhand/plan"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/theme"
)

// The screen "Focus star": which one, and is it time again?

func (m Model) drawFocus(area draw.Area) {
	header, footer := min(2, max(0, area.Height()-4)), m.footerRows()
	m.drawHeader(slice(area, band{0, header}))
	m.drawFooter(slice(area, band{area.Height() - footer, footer}))
	body := slice(area, band{header, max(0, area.Height()-header-footer)})
	dome := domeWidth(body.Width(), body.Height())
	list := body.Area(0, 0, body.Width()-dome-min(dome, 2), body.Height())
	y := m.drawFocusAnswer(list, header) + 1
	y += m.drawDrifts(list, y) + 1
	m.drawFocusTable(list.Area(0, y, list.Width(), list.Height()-y))
	v := m.domeOf()
	if m.focusStar < len(m.stars.Focus) {
		v = named(v, theme.Answer, &m.stars.Focus[m.focusStar].Candidate)
	}
	draw.Dome(body.Area(body.Width()-dome, 0, dome, body.Height()), m.config.Charset, v)
}

// drawFocusAnswer names the chosen star and returns the rows taken.
func (m Model) drawFocusAnswer(area draw.Area, header int) int {
	if len(m.stars.Focus) == 0 {
		area.Put(0, 0, theme.Answer, m.marked(band{0, header}, []string{"No star to focus on now"})[0])
		return 1 + paragraph(area, 1, theme.Text, m.stars.WhyNot)
	}
	star := m.stars.Focus[m.focusStar]
	area.Put(0, 0, theme.Answer, longestThatFits(area.Width(), m.marked(band{0, header}, []string{star.Star.Name() + ", " + m.focusFor(star)})...))
	y := 1
	y += m.drawCandidate(area, y, "", &star.Candidate)
	y += paragraph(area, y, theme.Text, star.Reason)
	return y
}

// focusFor says which telescopes a star will serve.
func (m Model) focusFor(star plan.Focus) string {
	in := func(list []plan.Focus) bool {
		for _, f := range list {
			if f.Star.ID == star.Star.ID {
				return true
			}
		}
		return false
	}
	switch {
	case !m.stars.HasGuide:
		return "for the telescope"
	case in(m.stars.Main) && in(m.stars.Guide):
		return "for both telescopes"
	}
	return "for the main telescope"
}

// drawDrifts tells of the focus of both telescopes and returns the rows taken.
func (m Model) drawDrifts(area draw.Area, y int) int {
	rows := m.drawDrift(area, y, "main", m.tonight.DriftOf(plan.MainTelescope(m.config.Kit.Optics)))
	if guide, ok := plan.GuideTelescope(m.config.Kit.Optics); ok {
		rows += m.drawDrift(area, y+rows, "guide", m.tonight.DriftOf(guide))
	}
	return rows
}

func (m Model) drawDrift(area draw.Area, y int, what string, d facts.Drift) int {
	role := theme.Text
	text := fmt.Sprintf("%s: focus holds within ±%.0f µm", what, d.ZoneUM/2)
	switch {
	case m.log.Focused == nil:
		text += "; say when it is focused"
	case m.log.Focused.TempC == nil:
		text += fmt.Sprintf("; focused at %s, temperature not read", hourMinute(m.log.Focused.At, m.config.Kit.Site.Zone))
	case d.Known && d.Used >= 1:
		role = theme.Call
		text = fmt.Sprintf("%s: FOCUS AGAIN: %.1f °C now, %.1f °C when it was focused, %.0f %% of the tolerance used", what, d.NowC, d.FocusedC, 100*d.Used)
	case d.Known:
		text += fmt.Sprintf("; %.0f %% used, good from %.1f to %.1f °C", 100*d.Used, d.Holds.BelowC, d.Holds.AboveC)
		if d.RefocusBy.OK {
			text += "; as it cools, until " + hourMinute(d.RefocusBy.At, m.config.Kit.Site.Zone)
		}
	}
	return paragraph(area, y, role, text)
}

func (m Model) drawFocusTable(area draw.Area) {
	v := draw.TableValues{Columns: []draw.TableColumn{{Title: "star", Width: 0}, {Title: "mag", Width: 5, Align: draw.AlignRight},
		{Title: "up", Width: 4, Align: draw.AlignRight}, {Title: "to target", Width: 9, Align: draw.AlignRight}}, Chosen: m.focusStar}
	for _, f := range m.stars.Focus {
		v.Rows = append(v.Rows, []string{f.Star.Name(), magnitude(f.Star.Magnitude.Value), fmt.Sprintf("%.0f°", f.Place.Altitude.Degrees()), wholeDegrees(f.ToTarget)})
	}
	v.First = draw.TableFirst(max(0, m.focusStar-area.Height()/2), m.focusStar, len(v.Rows), area.Height())
	draw.Table(area, m.config.Charset, v)
}
