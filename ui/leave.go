package ui

import (
	"errors"
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist/journal"
	"duskhand/checklist/unwritten"
)

// leavingUnwritten is what the footer adds while events wait in memory.
const leavingUnwritten = "; who leaves before that finds them in a file, which the next start takes in"

// filesChecked tells what became of a journal whose files were taken from under it.
func (m Model) filesChecked(msg filesCheckedMsg) Model {
	var waiting *journal.WaitingError
	switch {
	case errors.As(msg.err, &waiting):
		m.unwritten, m.pending = waiting.Error()+leavingUnwritten, msg.pending
	case msg.renewed != "":
		m.notice, m.unwritten, m.pending = msg.renewed, "", msg.pending
	}
	return m // that another program has taken over is told when something is said
}

// leave quits once all that was said or typed is written. Asked a second time it quits at once: the disk may hang.
// While events wait in memory the first time is refused.
func (m Model) leave() (Model, tea.Cmd) {
	if m.leaving {
		return m, tea.Quit
	}
	if m.pending > 0 && !m.saidUnwritten {
		m.saidUnwritten = true
		m.notice = fmt.Sprintf("Not left yet: %s of tonight can't be written to the journal and would be in memory only. "+
			"Make room on the disk and wait ten seconds; or ask to leave once more, and what waits is put into a file, which the next start takes in.",
			unwritten.Counted(m.pending))
		return m, nil
	}
	m, cmd := m.keepFraming()
	if m.leaving = m.writing || m.keepsForm(); !m.leaving {
		return m, tea.Quit
	}
	return m, cmd
}

// keepsForm tells whether what was typed into the form is on its way to the disk.
func (m Model) keepsForm() bool { return m.form != nil && !m.form.Kept() }

// left quits when the last that was said before leaving has been written. If it waits in memory instead, that is
// told, and leaving has to be asked for once more.
func (m Model) left() tea.Cmd {
	if !m.leaving || m.writing || len(m.waiting) > 0 || m.keepsForm() || m.pending > 0 && !m.saidUnwritten {
		return nil
	}
	return tea.Quit
}

// close lets the journal go, and keeps a copy of it when the night is over. What could not be written to it is put
// into a file, which the error names.
func (m Model) close() error {
	m.stopWatching()
	if m.store == nil {
		return nil
	}
	backup := error(nil)
	if m.wrote && m.tonight != nil && m.run.IsOver() {
		_, backup = m.store.Backup()
	}
	err := m.store.Close()
	if left := m.store.Unwritten(); len(left) > 0 {
		return errors.Join(backup, m.keepUnwritten(left, err))
	}
	return errors.Join(backup, err)
}

func (m Model) keepUnwritten(left []journal.Event, cause error) error {
	var waiting *journal.WaitingError
	if errors.As(cause, &waiting) {
		cause = waiting.Cause
	}
	path := ""
	f, err := unwritten.Of(m.config.JournalPath, left, m.config.Clock.Now())
	if err == nil {
		path, err = unwritten.Keep(f)
	}
	if err != nil {
		return fmt.Errorf("%s could not be written to the journal (%w), nor to a file, and are lost: %w", unwritten.Counted(len(left)), cause, err)
	}
	return fmt.Errorf("the journal could not be written (%w); %s of the night are kept in %s. "+
		"The next start of duskhand takes them in by itself when there is room, or say: duskhand record --import %s",
		cause, unwritten.Counted(len(left)), path, path)
}
