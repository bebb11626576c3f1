// Package alarms is the screen "Alarms": what will call me, and what is calling?
package alarms

import (
	"fmt"
	"slices"

	"duskhand/checklist/advice"
	"duskhand/sky/words"
	"duskhand/ui/bell"
	"duskhand/ui/draw"
	"duskhand/ui/layout"
	"duskhand/ui/say"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

// alarmParts are the bands of the screen for so many alarms: on two lines each, with a large answer, or where that
// leaves some out on one each, with a small one.
func (m view) alarmParts(alarms int) []layout.Part {
	answer, lines := screens.AnswerRows(m.Width, min(m.Height, screens.Modest)), 2*alarms
	const besides = 4 // header, how it rings, footer
	if answer+1+lines+besides > m.Height {
		lines = alarms
	}
	if answer+1+lines > m.Height {
		answer = 1
	}
	return []layout.Part{
		layout.NewPart("header", 2, 1, 6), layout.NewPart("answer", answer, 1, 0), layout.NewPart("label",
			1, 1, 1), layout.NewPart("gap", 1, 1, 9),
		layout.NewPart("list", lines, 2, 3), layout.NewPart("how", 2, 1, 7), layout.NewPart("footer",
			m.Footer.Rows(), 1, m.Footer.Rank(4)),
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
	alerts := m.Alerts
	bands := layout.Stack(area.Height(), m.alarmParts(len(alerts)), "how")
	part := func(name string) draw.Area { return layout.Slice(area, bands[name]) }
	m.Header(part("header"))
	text, role, label := m.alarmAnswer(alerts)
	draw.BigText(part("answer"), m.Charset, role, text)
	layout.Put(part("label"), theme.Need, m.Marked(bands["header"], label)...)
	list := part("list")
	rows := 1
	if list.Height() >= 2*len(alerts) {
		rows = 2
	}
	if list.Height() < len(alerts) { // what is on is not left out
		alerts = slices.Clone(alerts)
		slices.SortStableFunc(alerts, func(a, b say.Alert) int { return int(b.Level) - int(a.Level) })
	}
	for i, alert := range alerts {
		m.drawAlert(list.Area(0, i*rows, list.Width(), rows), alert)
	}
	layout.Paragraph(part("how"), 0, theme.Faint, m.howItRings())
	m.Footer.Draw(part("footer"))
}

func (m view) alarmAnswer(alerts []say.Alert) (text string, role theme.Role, label []string) {
	on := 0
	level := advice.Quiet
	for _, alert := range alerts {
		if alert.Level > advice.Quiet {
			on++
			level = max(level, alert.Level)
		}
	}
	quiet := ""
	if n := m.quiet(alerts); n > 0 {
		quiet = fmt.Sprintf(", %d quiet until %s", n, words.Minute(m.Bell.Until(), m.Zone()))
	}
	switch {
	case on == 0:
		return "QUIET", theme.Answer, []string{"nothing calls now" + quiet, "nothing calls"}
	case level == advice.Calling:
		return "CALL", theme.Call, []string{bell.Counted(on) + " on" + quiet, bell.Counted(on)}
	}
	return "SOON", theme.Caution, []string{bell.Counted(on) + " on" + quiet, bell.Counted(on)}
}

// quiet is how many of the alerts that are on are kept quiet.
func (m view) quiet(alerts []say.Alert) (n int) {
	for _, alert := range alerts {
		if m.Bell.IsQuiet(alert, m.Now) {
			n++
		}
	}
	return n
}

// drawAlert writes one alert: what it is, and since when it is on or when it comes.
func (m view) drawAlert(area draw.Area, alert say.Alert) {
	const name, state = 13, 14
	role, since := theme.Faint, "quiet"
	if at, on := m.Bell.Since(alert.Kind); on && alert.Level > advice.Quiet {
		role, since = theme.Call, "since "+words.Minute(at, m.Zone())
		if alert.Level == advice.Warning {
			role = theme.Caution
		}
	}
	area.Put(0, 0, role, string(alert.Kind))
	area.Put(name, 0, role, since)
	if area.Height() == 1 {
		words := alert.Words
		if width := area.Width() - name - state; alert.Brief != "" && draw.Width(words) > width { // what is on is said whole
			words = alert.Brief
		}
		area.Put(name+state, 0, role, draw.Shorten(m.Charset, words, area.Width()-name-state))
		return
	}
	area.Put(name, 1, role, draw.Shorten(m.Charset, alert.Words, area.Width()-name))
}

// howItRings says what an alarm does.
func (m view) howItRings() string {
	alarm := m.Kit.Alarm
	how := map[string]string{"bell": "the terminal's bell", "none": "no sound",
		"command": "your command"}[alarm.Bell]
	if alarm.Notify && m.messages != bell.NoMessages {
		how += " and a message on the desktop"
	}
	return "Rings: " + how + ", at the start; a call again after " + words.Lasting(bell.Reminds) + ". Kit: alarm"
}
