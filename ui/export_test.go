package ui

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/watch"
	"duskhand/ui/keys"
	"duskhand/ui/screens"
	"duskhand/ui/session"
)

// Tick is the message that a second has passed, for tests that lead the clock.
func (m Model) Tick() tea.Msg { return tickMsg{m.generation} }

// Close lets the journal go, as Run does when the person leaves.
func (m Model) Close() error { return m.night.Close() }

// Keys returns the table of keys as it stands.
func (m Model) Keys() keys.Table { return m.night.Status.Keys }

// Reported is the message that the watch has read a frame.
func Reported(f arrival.Frame) tea.Msg {
	ended := make(chan watch.Report)
	close(ended)
	return session.ReportedMsg{Report: watch.Report{Frame: &f}, Reports: ended}
}

// Status is the night as the screens are handed it.
func (m Model) Status() screens.Status { return m.night.Status }

// Config is what the program was given.
func (m Model) Config() Config { return m.config }

// Drawn returns the program as it stands with a config that draws it otherwise: palette, charset, colours.
func (m Model) Drawn(change func(*Config)) Model {
	if change != nil {
		change(&m.config)
	}
	m.theme, m.night.Status.Charset = m.config.theme(), m.config.Charset
	return m
}
