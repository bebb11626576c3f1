package ui

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/theme"
)

// The alarms: each rings when it begins, a call once more if nobody acts, and then it stays written and is
// silent: what rings for ever is soon not heard.

// reminds is how long after a call a second one comes.
const reminds = 2 * time.Minute

// alarmState is what has been done about an alert that is on.
type alarmState struct {
	since    time.Time
	rung     time.Time // zero: not yet, because of the snooze
	reminded bool
}

// alarms is what has been done about the alerts that are on.
type alarms struct {
	states  map[facts.AlertKind]alarmState // never changed in place: models share it
	snoozed time.Time                      // all are quiet until then
}

// sound rings for what has come up since the last second.
func (m Model) sound() (Model, tea.Cmd) {
	list := m.run.Alerts(m.subs.facts)
	states := map[facts.AlertKind]alarmState{}
	var call *facts.Alert
	for i := range list {
		alert := &list[i]
		if alert.Level == facts.Quiet {
			continue
		}
		state, known := m.alarms.states[alert.Kind]
		if !known {
			state.since = m.now
		}
		if m.rings(*alert, &state) && (call == nil || alert.Level > call.Level) {
			call = alert
		}
		states[alert.Kind] = state
	}
	m.alarms.states = states
	if call == nil {
		return m, nil
	}
	return m, ring(m.config.Kit.Alarm, m.config.Notify, m.config.Out, *call)
}

// rings tells whether an alert that is on is due to ring, and notes it.
func (m Model) rings(alert facts.Alert, state *alarmState) bool {
	switch {
	case m.now.Before(m.alarms.snoozed):
		return false
	case state.rung.IsZero():
		state.rung = m.now
		return true
	case alert.Level == facts.Calling && !state.reminded && m.now.Sub(state.rung) >= reminds:
		state.reminded = true
		return true
	}
	return false
}

// rungAlready takes what is so when the night is read as told: it need not ring again.
func (m Model) rungAlready() Model {
	states := map[facts.AlertKind]alarmState{}
	for _, alert := range m.run.Alerts(m.subs.facts) {
		if alert.Level != facts.Quiet {
			states[alert.Kind] = alarmState{since: m.now, rung: m.now}
		}
	}
	m.alarms.states = states
	return m
}

// snooze keeps all alarms quiet for a while, or wakes them.
func (m Model) snooze() Model {
	if m.now.Before(m.alarms.snoozed) {
		m.alarms.snoozed = time.Time{}
		m.notice = "alarms ring again"
		return m
	}
	m.alarms.snoozed = m.now.Add(m.config.Kit.Alarm.Snooze)
	m.notice = "alarms are quiet until " + hourMinute(m.alarms.snoozed, m.config.Kit.Site.Zone) + "; what is due stays written"
	return m
}

func (m Model) alarmParts(lines int) []part {
	return []part{
		{"header", 2, 1, 6}, {"answer", answerRows(m.width, min(m.height, modest)), 1, 0}, {"label", 1, 1, 1}, {"gap", 1, 1, 9},
		{"list", lines, 2, 3}, {"how", 2, 1, 7}, {"footer", m.footerRows(), 1, m.footerRank(4)},
	}
}

// modest is the height for which the answer is sized on screens whose list matters as much.
const modest = 16

// drawAlarms is the screen "Alarms": what will call me, and what is calling?
func (m Model) drawAlarms(area draw.Area) {
	alerts := m.run.Alerts(m.subs.facts)
	bands := stack(area.Height(), m.alarmParts(2*len(alerts)), "how")
	part := func(name string) draw.Area { return slice(area, bands[name]) }
	m.drawHeader(part("header"))
	text, role, label := m.alarmAnswer(alerts)
	draw.BigText(part("answer"), m.config.Charset, role, text)
	put(part("label"), theme.Text, m.marked(bands["header"], label)...)
	list := part("list")
	rows := 1
	if list.Height() >= 2*len(alerts) {
		rows = 2
	}
	for i, alert := range alerts {
		m.drawAlert(list.Area(0, i*rows, list.Width(), rows), alert)
	}
	paragraph(part("how"), 0, theme.Faint, m.howItRings())
	m.drawFooter(part("footer"))
}

func (m Model) alarmAnswer(alerts []facts.Alert) (text string, role theme.Role, label []string) {
	on := 0
	level := facts.Quiet
	for _, alert := range alerts {
		if alert.Level > facts.Quiet {
			on++
			level = max(level, alert.Level)
		}
	}
	quiet := ""
	if m.now.Before(m.alarms.snoozed) {
		quiet = ", quiet until " + hourMinute(m.alarms.snoozed, m.config.Kit.Site.Zone)
	}
	switch {
	case on == 0:
		return "QUIET", theme.Answer, []string{"nothing calls now" + quiet, "nothing calls"}
	case level == facts.Calling:
		return "CALL", theme.Call, []string{counted(on, "alarm") + " on" + quiet, counted(on, "alarm")}
	}
	return "SOON", theme.Caution, []string{counted(on, "alarm") + " on" + quiet, counted(on, "alarm")}
}

// drawAlert writes one alert: what it is, and since when it is on or when it comes.
func (m Model) drawAlert(area draw.Area, alert facts.Alert) {
	const name, state = 13, 14
	role, since := theme.Faint, "quiet"
	if s, on := m.alarms.states[alert.Kind]; on && alert.Level > facts.Quiet {
		role, since = theme.Call, "since "+hourMinute(s.since, m.config.Kit.Site.Zone)
		if alert.Level == facts.Warning {
			role = theme.Caution
		}
	}
	area.Put(0, 0, role, string(alert.Kind))
	area.Put(name, 0, role, since)
	if area.Height() == 1 {
		area.Put(name+state, 0, role, draw.Shorten(m.config.Charset, alert.Words, area.Width()-name-state))
		return
	}
	area.Put(name, 1, role, draw.Shorten(m.config.Charset, alert.Words, area.Width()-name))
}

// howItRings says what an alarm does.
func (m Model) howItRings() string {
	alarm := m.config.Kit.Alarm
	how := map[string]string{"bell": "the terminal's bell", "none": "no sound", "command": "your command"}[alarm.Bell]
	if alarm.Notify && m.config.Notify != NoMessages {
		how += " and a message on the desktop"
	}
	return "An alarm is " + how + ": once when it begins, a call once more after " + duration(reminds) + ". In the kit: alarm."
}
