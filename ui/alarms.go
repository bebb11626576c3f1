package ui

import (
	"fmt"
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist/advice"
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
	rung     time.Time
	reminded bool
	snoozed  bool // it was on when the snooze key was pressed
}

// alarms is what has been done about the alerts that are on.
type alarms struct {
	states map[facts.AlertKind]alarmState // never changed in place: models share it
	until  time.Time                      // those that are snoozed are quiet until then
}

// sound rings for what has come up since the last second.
func (m Model) sound() (Model, tea.Cmd) {
	m.alerts = m.run.Alerts(m.advice, m.subs.facts)
	list := m.alerts
	states := map[facts.AlertKind]alarmState{}
	var call *facts.Alert
	for i := range list {
		alert := &list[i]
		if alert.Level == advice.Quiet {
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
	case state.snoozed && m.snoozing():
		return false
	case state.rung.IsZero():
		state.rung = m.now
		return true
	case alert.Level == advice.Calling && !state.reminded && m.now.Sub(state.rung) >= reminds:
		state.reminded = true
		return true
	}
	return false
}

// rungAlready takes what is so when the night is read as told: it need not ring again.
func (m Model) rungAlready() Model {
	if m.weighs() {
		m.subs.facts = m.run.SubsAt(m.subs.free, m.subs.blind)
		m.subs.told, _ = m.subs.told.Fresh(m.subs.facts.Notices)
	}
	states := map[facts.AlertKind]alarmState{}
	m.alerts = m.run.Alerts(m.advice, m.subs.facts)
	for _, alert := range m.alerts {
		if alert.Level != advice.Quiet {
			states[alert.Kind] = alarmState{since: m.now, rung: m.now}
		}
	}
	m.alarms.states = states
	return m
}

// snoozing tells whether some alarms are kept quiet.
func (m Model) snoozing() bool { return m.now.Before(m.alarms.until) }

// snooze keeps the alarms that are on quiet for a while, or wakes them. One that begins later rings: nobody has
// waved that aside.
func (m Model) snooze() Model {
	if m.snoozing() {
		m.alarms.until = time.Time{}
		m.notice = "alarms ring again"
		return m
	}
	if len(m.alarms.states) == 0 {
		m.notice = "no alarm is on that could be kept quiet"
		return m
	}
	states := map[facts.AlertKind]alarmState{}
	for kind, state := range m.alarms.states {
		state.snoozed = true
		states[kind] = state
	}
	m.alarms.states = states
	m.alarms.until = m.now.Add(m.config.Kit.Alarm.Snooze)
	m.notice = counted(len(states), "alarm") + " quiet until " + hourMinute(m.alarms.until, m.config.Kit.Site.Zone) + "; what begins meanwhile rings"
	return m
}

// alarmParts are the bands of the screen for so many alarms: on two lines each, with a large answer, or where that
// leaves some out on one each, with a small one.
func (m Model) alarmParts(alarms int) []part {
	answer, lines := answerRows(m.width, min(m.height, modest)), 2*alarms
	if answer+1+lines > m.height {
		lines = alarms
	}
	if answer+1+lines > m.height {
		answer = 1
	}
	return []part{
		{"header", 2, 1, 6}, {"answer", answer, 1, 0}, {"label", 1, 1, 1}, {"gap", 1, 1, 9},
		{"list", lines, 2, 3}, {"how", 2, 1, 7}, {"footer", m.footerRows(), 1, m.footerRank(4)},
	}
}

// modest is the height for which the answer is sized on screens whose list matters as much.
const modest = 16

// drawAlarms is the screen "Alarms": what will call me, and what is calling?
func (m Model) drawAlarms(area draw.Area) {
	alerts := m.alerts
	bands := stack(area.Height(), m.alarmParts(len(alerts)), "how")
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
	if list.Height() < len(alerts) { // what is on is not left out
		alerts = slices.Clone(alerts)
		slices.SortStableFunc(alerts, func(a, b facts.Alert) int { return int(b.Level) - int(a.Level) })
	}
	for i, alert := range alerts {
		m.drawAlert(list.Area(0, i*rows, list.Width(), rows), alert)
	}
	paragraph(part("how"), 0, theme.Faint, m.howItRings())
	m.drawFooter(part("footer"))
}

func (m Model) alarmAnswer(alerts []facts.Alert) (text string, role theme.Role, label []string) {
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
		quiet = fmt.Sprintf(", %d quiet until %s", n, hourMinute(m.alarms.until, m.config.Kit.Site.Zone))
	}
	switch {
	case on == 0:
		return "QUIET", theme.Answer, []string{"nothing calls now" + quiet, "nothing calls"}
	case level == advice.Calling:
		return "CALL", theme.Call, []string{counted(on, "alarm") + " on" + quiet, counted(on, "alarm")}
	}
	return "SOON", theme.Caution, []string{counted(on, "alarm") + " on" + quiet, counted(on, "alarm")}
}

// quiet is how many of the alerts that are on are kept quiet.
func (m Model) quiet(alerts []facts.Alert) (n int) {
	for _, alert := range alerts {
		if alert.Level > advice.Quiet && m.snoozing() && m.alarms.states[alert.Kind].snoozed {
			n++
		}
	}
	return n
}

// drawAlert writes one alert: what it is, and since when it is on or when it comes.
func (m Model) drawAlert(area draw.Area, alert facts.Alert) {
	const name, state = 13, 14
	role, since := theme.Faint, "quiet"
	if s, on := m.alarms.states[alert.Kind]; on && alert.Level > advice.Quiet {
		role, since = theme.Call, "since "+hourMinute(s.since, m.config.Kit.Site.Zone)
		if alert.Level == advice.Warning {
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
	return "Rings: " + how + ", at the start; a call again after " + duration(reminds) + ". Kit: alarm"
}
