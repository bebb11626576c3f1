package ui

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/ui/keys"
)

// refused says why a key that says something in a night does nothing now: in the words with which a script
// that said it would be refused, or where the key works. A key that is silent is taken for one that worked.
func (m Model) refused(msg tea.KeyMsg) Model {
	meant := m.night.Status.Keys.Meant(msg)
	if !m.night.IsOpen() {
		if slices.ContainsFunc(meant, func(b keys.Bound) bool { return b.Says && len(b.On) == 0 }) {
			m.night.Notice = "the journal is not open yet; press again when it is"
		}
		return m
	}
	for _, b := range meant {
		switch {
		case b.Action == keys.Subs:
			m.night = m.night.Refusing(checklist.StartSubs{})
			return m
		case b.Action == keys.Undo:
			m.night = m.night.Refusing(checklist.Undo{})
			return m
		case b.Action == keys.Redo:
			m.night = m.night.Refusing(checklist.Redo{})
			return m
		case b.Action == keys.Next:
			m.night.Notice = "nothing is to be said here now"
			return m
		case m.night.Status.Screen == keys.RunScreen && (b.Action == keys.Target || b.Action == keys.Divide):
			m.night.Notice = "the kit has one target; add another [[target]] to it, or take one on the screen decide"
			return m
		}
	}
	if m.night.Status.Screen == keys.RunScreen {
		return m.worksElsewhere(meant)
	}
	return m
}

// worksElsewhere names the screen on which a key says something.
func (m Model) worksElsewhere(meant []keys.Bound) Model {
	i := slices.IndexFunc(meant, func(b keys.Bound) bool { return b.Says && len(b.On) > 0 })
	if i >= 0 {
		b := meant[i]
		m.night.Notice = fmt.Sprintf("%s (%s) is a key of the screen %s: go there with %d", b.Shown,
			b.Words, b.On[0], b.On[0]+1)
	}
	return m
}
