package session

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
func (m Session) filesChecked(msg filesCheckedMsg) Session {
	var waiting *journal.WaitingError
	switch {
	case errors.As(msg.err, &waiting):
		m.Unwritten, m.pending = waiting.Error()+leavingUnwritten, msg.pending
	case msg.renewed != "":
		m.Notice, m.Unwritten, m.pending = msg.renewed, "", msg.pending
	}
	return m // that another program has taken over is told when something is said
}

// Refuses tells why the program should not be left yet, "" for no reason or where that has been told: while events wait
// in memory the first time is refused.
func (m Session) Refuses() (Session, string) {
	if m.pending == 0 || m.saidUnwritten {
		return m, ""
	}
	m.saidUnwritten = true
	return m, fmt.Sprintf("Not left yet: %s of tonight can't be written to the journal and would be in memory only. "+
		"Make room on the disk and wait ten seconds; or ask to leave once more, and what waits is put into a file, which the next start takes in.",
		unwritten.Counted(m.pending))
}

// Leave quits once all that was said is written, and what the root has to keep is kept.
func (m Session) Leave() (Session, tea.Cmd) {
	if m.leaving = m.writing || m.Keeps; !m.leaving {
		return m, tea.Quit
	}
	return m, nil
}

// Leaving tells whether the program is left as soon as all is written; Stay takes that back.
func (m Session) Leaving() bool { return m.leaving }

// Stay takes back that the program is left.
func (m Session) Stay() Session { m.leaving = false; return m }

// Left quits when the last that was said before leaving has been written. If it waits in memory instead, that is
// told, and leaving has to be asked for once more.
func (m Session) Left() tea.Cmd {
	if !m.leaving || m.writing || len(m.waiting) > 0 || m.Keeps || m.pending > 0 && !m.saidUnwritten {
		return nil
	}
	return tea.Quit
}

// Close lets the journal go, and keeps a copy of it when the night is over. What could not be written to it is put
// into a file, which the error names.
func (m Session) Close() error {
	m.stopWatching()
	if m.store == nil {
		return nil
	}
	backup := error(nil)
	if m.wrote && m.Status.Tonight != nil && m.Status.Run.IsOver() {
		_, backup = m.store.Backup()
	}
	err := m.store.Close()
	if left := m.store.Unwritten(); len(left) > 0 {
		return errors.Join(backup, m.keepUnwritten(left, err))
	}
	return errors.Join(backup, err)
}

func (m Session) keepUnwritten(left []journal.Event, cause error) error {
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
		return fmt.Errorf("%s could not be written to the journal (%w), nor to a file, and are lost: %w",
			unwritten.Counted(len(left)), cause, err)
	}
	return fmt.Errorf("the journal could not be written (%w); %s of the night are kept in %s. "+
		"The next start of duskhand takes them in by itself when there is room, or say: duskhand record --import %s",
		cause, unwritten.Counted(len(left)), path, path)
}
