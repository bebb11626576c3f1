package form

import (
	"maps"

	tea "github.com/charmbracelet/bubbletea"
)

// Before reads the kit that is changed, and what was typed another time: what the form begins with.
func (c Config) Before() tea.Msg {
	var msg BeforeMsg
	if c.Old != nil {
		if msg.old, msg.besides, msg.err = c.Old(); msg.err != nil {
			return msg
		}
	}
	if c.Typed != nil {
		msg.typed, msg.err = c.Typed()
	}
	return msg
}

// fill takes in what the form begins with.
func (m Model) fill(msg BeforeMsg) (Model, tea.Cmd) {
	var cmd tea.Cmd
	m.old, m.besides = msg.old, msg.besides
	if msg.typed != nil {
		m, cmd = m.fillIn(msg.typed)
	}
	if msg.err != nil {
		m = m.trouble(msg.err)
	}
	return m, cmd
}

// fillIn puts what was typed another time, by the keys of the fields, into those that are still empty, and goes
// to the first that is open. Keys that no field has are passed over. From now on what is typed is kept: before
// that it could take the place of what is still to be read. What it returns computes tonight.
func (m Model) fillIn(typed map[string]string) (Model, tea.Cmd) {
	m.fields = append([]field(nil), m.fields...)
	untouched := len(m.typed()) == 0
	for i := range m.fields {
		f := &m.fields[i]
		text, found := typed[f.key]
		if !found {
			text = m.old[f.key]
		}
		if f.input.Value() == "" {
			f.input.SetValue(text)
		}
	}
	m = m.read()
	if untouched {
		m = m.goTo(m.firstOpen())
	}
	m.kept, m.keeps = typed, true
	m, compute := m.compute()
	m, keep := m.keep()
	return m, tea.Batch(compute, keep)
}

// toKeep is what is kept on the disk: all that is typed, or what is changed of a kit that is there.
func (m Model) toKeep() map[string]string {
	if m.config.Old != nil {
		return m.changed()
	}
	return m.typed()
}

// changed returns the texts that are not the kit's, by the keys of the fields; one that was emptied is "".
func (m Model) changed() map[string]string {
	changed := map[string]string{}
	for _, f := range m.fields {
		if text := m.text(f.key); text != m.old[f.key] {
			changed[f.key] = text
		}
	}
	return changed
}

// Untouched tells whether the form holds nothing but what its kit has.
func (m Model) Untouched() bool { return m.config.Old != nil && len(m.changed()) == 0 }

// trouble tells the person of something that stands in the way, until the next key.
func (m Model) trouble(err error) Model {
	m.problem = err.Error()
	return m
}

// Kept tells whether all that is typed is on the disk, or is not going to get there.
func (m Model) Kept() bool { return !m.keeping }

// typed returns what the fields hold, by their keys; empty ones are left out.
func (m Model) typed() map[string]string {
	typed := map[string]string{}
	for _, f := range m.fields {
		if text := f.input.Value(); text != "" {
			typed[f.key] = text
		}
	}
	return typed
}

// keep has what is typed brought to the disk. One state is written at a time, and what is typed meanwhile
// is written after it, so that an old one never comes last.
func (m Model) keep() (Model, tea.Cmd) {
	typed := m.toKeep()
	if m.config.Keep == nil || !m.keeps || m.keeping || maps.Equal(typed, m.kept) {
		return m, nil
	}
	m.keeping = true
	keep := m.config.Keep
	return m, func() tea.Msg { return KeptMsg{typed, keep(typed)} }
}

// wasKept goes on with what was typed meanwhile. After a failure that waits for the next key.
func (m Model) wasKept(msg KeptMsg) (Model, tea.Cmd) {
	m.keeping, m.kept = false, msg.typed
	if msg.Err != nil {
		m.kept = nil
		return m.trouble(msg.Err), nil
	}
	return m.keep()
}

// firstOpen returns the first field that is missing or won't do, the first of all if none is.
func (m Model) firstOpen() int {
	for i := range m.fields {
		if s := m.fieldState(i); s == missing || s == faulty {
			return i
		}
	}
	return 0
}
