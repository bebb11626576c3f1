package form

import (
	"maps"

	tea "github.com/charmbracelet/bubbletea"
)

// Fill puts what was typed another time, by the keys of the fields, into those that are still empty, and goes
// to the first that is open. Keys that no field has are passed over. From now on what is typed is kept: before
// that it could take the place of what is still to be read. What it returns computes tonight.
func (m Model) Fill(typed map[string]string) (Model, tea.Cmd) {
	m.fields = append([]field(nil), m.fields...)
	untouched := len(m.typed()) == 0
	for i := range m.fields {
		if f := &m.fields[i]; f.input.Value() == "" {
			f.input.SetValue(typed[f.key])
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

// Trouble tells the person of something that stands in the way, until the next key.
func (m Model) Trouble(err error) Model {
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
	typed := m.typed()
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
		return m.Trouble(msg.Err), nil
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
