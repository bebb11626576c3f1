package ui

import tea "github.com/charmbracelet/bubbletea"

// leave quits once all that was said or typed is written. Asked a second time it quits at once: the disk may hang.
func (m Model) leave() (Model, tea.Cmd) {
	if m.leaving {
		return m, tea.Quit
	}
	m, cmd := m.keepFraming()
	if m.leaving = m.writing || m.keepsForm(); !m.leaving {
		return m, tea.Quit
	}
	return m, cmd
}

// keepsForm tells whether what was typed into the form is on its way to the disk.
func (m Model) keepsForm() bool { return m.form != nil && !m.form.Kept() }

// left quits when the last that was said before leaving has been written.
func (m Model) left() tea.Cmd {
	if !m.leaving || m.writing || len(m.waiting) > 0 || m.keepsForm() {
		return nil
	}
	return tea.Quit
}
