package frame

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/ui/page"
	"duskhand/ui/screens"
)

// pageSavedMsg says where the page was written.
type pageSavedMsg struct {
	paths []string
	err   error
}

func (m pageSavedMsg) words() string {
	if m.err != nil {
		return m.err.Error()
	}
	return "written: " + m.paths[0] + ", and beside it the one for paper"
}

// save writes the page of the target as it stands on the screen.
func (r Model) save(s screens.Status) (screens.Intent, tea.Cmd) {
	if r.pages == "" {
		return screens.Tell{Words: "there is no home folder for the page; the command plan writes one with --svg FILE"}, nil
	}
	return nil, func() tea.Msg {
		paths, err := page.Save(r.pages, s.Kit, s.Date, s.Now, page.Night{Told: r.told(s), Price: s.Price})
		return pageSavedMsg{paths, err}
	}
}
