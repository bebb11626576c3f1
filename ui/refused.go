package ui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
)

// refused says why a key that says something in a night does nothing now: in the words with which a script
// that said it would be refused, or where the key works. A key that is silent is taken for one that worked.
func (m Model) refused(msg tea.KeyMsg) Model {
	pressed := func(b key.Binding) bool { // whether or not it can do anything now
		b.SetEnabled(true)
		return key.Matches(msg, b)
	}
	if m.store == nil || m.tonight == nil {
		for _, b := range m.keys.saying() {
			if pressed(b) {
				m.notice = "the journal is not open yet; press again when it is"
			}
		}
		return m
	}
	switch {
	case pressed(m.keys.Subs):
		return m.refusing(checklist.StartSubs{})
	case pressed(m.keys.Undo):
		return m.refusing(checklist.Undo{})
	case pressed(m.keys.Redo):
		return m.refusing(checklist.Redo{})
	case pressed(m.keys.Next):
		m.notice = "nothing is to be said here now"
	case m.screen == runScreen && (pressed(m.keys.Target) || pressed(m.keys.Divide)):
		m.notice = "the kit has one target; add another [[target]] to it, or take one on the screen decide"
	case m.screen == runScreen:
		return m.worksElsewhere(pressed)
	}
	return m
}

// refusing tells what the checklist has against an action.
func (m Model) refusing(a checklist.Action) Model {
	if _, _, err := m.config.Steps.Say(m.log, a, m.config.Kit.Site.Zone); err != nil {
		m.notice = err.Error()
	}
	return m
}

// worksElsewhere names the screen on which a key says something.
func (m Model) worksElsewhere(pressed func(key.Binding) bool) Model {
	for _, own := range []struct {
		binding key.Binding
		screen  screenID
	}{
		{m.keys.Axes, starsScreen}, {m.keys.Level, starsScreen}, {m.keys.Focused, focusScreen},
		{m.keys.Temperature, focusScreen}, {m.keys.Humidity, decideScreen}, {m.keys.Skip, stepsScreen},
		{m.keys.Fail, stepsScreen}, {m.keys.Framing, frameScreen}, {m.keys.Seen, frameScreen},
		{m.keys.Grid, frameScreen}, {m.keys.Save, frameScreen},
	} {
		if pressed(own.binding) {
			m.notice = fmt.Sprintf("%s (%s) is a key of the screen %s: go there with %d", own.binding.Help().Key,
				own.binding.Help().Desc, screenNames()[own.screen], own.screen+1)
			return m
		}
	}
	return m
}

// saying are the keys of the Run screen that say what has happened.
func (k keyMap) saying() []key.Binding {
	return []key.Binding{k.Next, k.Derotator, k.Rewound, k.Read, k.Subs, k.Target, k.Undo, k.Redo,
		k.Divide, k.Note}
}
