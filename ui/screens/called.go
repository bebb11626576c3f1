package screens

import (
	"slices"

	"duskhand/ui/facts"
	"duskhand/ui/keys"
	"duskhand/ui/layout"
	"duskhand/ui/say"
)

// What calls stays written on every screen, whatever it shows, until it is over or has been waved aside.

// Called is the line that names what is on and the screen does not show by itself; "" if there is nothing.
func (s Status) Called() string {
	on := s.Heeded()
	switch s.Screen {
	case keys.AlarmsScreen:
		return ""
	case keys.RunScreen: // its answer and its line of what to do say the rest
		on = s.Unsaid()
		if len(on) > 0 && s.Voice().SaysAlert() {
			on = on[1:]
		}
		on = append(slices.Clip(on), say.Besides(s.Heeded())...)
	}
	if slices.ContainsFunc(on, func(a say.Alert) bool { return a.Kind == facts.LimitReached }) { // worse than to be due
		on = slices.DeleteFunc(on, func(a say.Alert) bool { return a.Kind == facts.ActNow })
	}
	if len(on) == 0 {
		return ""
	}
	width := s.Width - 2*layout.Margin(s.Width)
	return layout.Longest(width, say.Alerted(on[0], on[1:])...)
}
