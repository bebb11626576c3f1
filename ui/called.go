package ui

import (
	"slices"
	"strings"

	"duskhand/checklist/advice"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
	"duskhand/ui/say"
)

// What calls stays written on every screen, whatever it shows, until it is over or has been waved aside.

// unsaid returns what is on besides the run, unless it is kept quiet.
func (m Model) unsaid() []facts.Alert { return facts.Unsaid(m.heeded()) }

// heeded returns the alerts that are on and not kept quiet, what calls before what warns.
func (m Model) heeded() []facts.Alert {
	var on []facts.Alert
	for _, a := range m.alerts {
		if a.Level > advice.Quiet && !(m.snoozing() && m.alarms.states[a.Kind].snoozed) {
			on = append(on, a)
		}
	}
	slices.SortStableFunc(on, func(a, b facts.Alert) int { return int(b.Level) - int(a.Level) })
	return on
}

// called is the line that names what is on and the screen does not show by itself; "" if there is nothing.
func (m Model) called() string {
	on := m.heeded()
	switch m.screen {
	case keys.AlarmsScreen:
		return ""
	case keys.RunScreen: // its answer and its line of what to do say the rest
		on = m.unsaid()
		if len(on) > 0 && m.voice().SaysAlert() {
			on = on[1:]
		}
		on = append(slices.Clip(on), facts.Besides(m.heeded())...)
	}
	if slices.ContainsFunc(on, func(a facts.Alert) bool { return a.Kind == facts.LimitReached }) { // worse than to be due
		on = slices.DeleteFunc(on, func(a facts.Alert) bool { return a.Kind == facts.ActNow })
	}
	if len(on) == 0 || strings.Contains(m.notice, on[0].Words) {
		return ""
	}
	var others []string
	for _, a := range on[1:] {
		others = append(others, string(a.Kind))
	}
	tail := ""
	if len(others) > 0 {
		tail = " (and: " + strings.Join(others, ", ") + ")"
	}
	width := m.width - 2*margin(m.width)
	return longestThatFits(width, wordsAnd(on[0], tail)...)
}

// wordsAnd says an alert with what is on besides, the longest first.
func wordsAnd(a facts.Alert, tail string) []string {
	return []string{say.Capital(a.Words) + tail, say.Capital(a.Brief) + tail, say.Capital(a.Brief)}
}
