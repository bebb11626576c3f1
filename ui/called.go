package ui

import (
	"slices"
	"strings"

	"duskhand/ui/facts"
	"duskhand/ui/keys"
	"duskhand/ui/layout"
	"duskhand/ui/say"
)

// What calls stays written on every screen, whatever it shows, until it is over or has been waved aside.

// called is the line that names what is on and the screen does not show by itself; "" if there is nothing.
func (m Model) called() string {
	on := m.night.Status.Heeded()
	switch m.night.Status.Screen {
	case keys.AlarmsScreen:
		return ""
	case keys.RunScreen: // its answer and its line of what to do say the rest
		on = m.night.Status.Unsaid()
		if len(on) > 0 && m.night.Status.Voice().SaysAlert() {
			on = on[1:]
		}
		on = append(slices.Clip(on), facts.Besides(m.night.Status.Heeded())...)
	}
	if slices.ContainsFunc(on, func(a facts.Alert) bool { return a.Kind == facts.LimitReached }) { // worse than to be due
		on = slices.DeleteFunc(on, func(a facts.Alert) bool { return a.Kind == facts.ActNow })
	}
	if len(on) == 0 {
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
	width := m.night.Status.Width - 2*layout.Margin(m.night.Status.Width)
	return layout.Longest(width, wordsAnd(on[0], tail)...)
}

// wordsAnd says an alert with what is on besides, the longest first.
func wordsAnd(a facts.Alert, tail string) []string {
	return []string{say.Capital(a.Words) + tail, say.Capital(a.Brief) + tail, say.Capital(a.Brief)}
}
