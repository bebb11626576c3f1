package ui

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/page"
)

// savePage writes the page of the target as it stands on the Frame screen.
func (m Model) savePage() (Model, tea.Cmd) {
	if m.config.PagesFolder == "" {
		m.notice = "there is no home folder for the page; the command plan writes one with --svg FILE"
		return m, nil
	}
	folder, k, date, now, night := m.config.PagesFolder, m.config.Kit, m.date, m.now, page.Night{Told: m.frameTold()}
	return m, func() tea.Msg {
		paths, err := page.Save(folder, k, date, now, night)
		return pageSavedMsg{paths, err}
	}
}

func (m Model) pageSaved(msg pageSavedMsg) (Model, tea.Cmd) {
	if msg.err != nil {
		m.notice = msg.err.Error()
		return m, nil
	}
	m.notice = "written: " + msg.paths[0] + ", and beside it the one for paper"
	return m, nil
}
