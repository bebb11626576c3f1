package session

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist/journal"
	"duskhand/checklist/journal/fallback"
	"duskhand/ui/screens"
)

// replayKeptMsg comes when a replay was kept, or could not be.
type replayKeptMsg struct {
	path string
	err  error
}

// LosesWhatWasSaid tells that leaving now loses what the operator said in a night that is not kept.
func (m Session) LosesWhatWasSaid() bool { return m.spoken && m.Status.Unkept != "" }

// Loses has the operator decide that it may be lost.
func (m Session) Loses() Session { m.spoken = false; return m }

// AskKeep asks for the name under which a replay is kept.
func (m Session) AskKeep() screens.Prompt {
	proposal := m.Status.Date.String()
	return screens.NewPrompt("keep this replay under the name", proposal, func(text string) (screens.Intent, error) {
		if text == "" {
			text = proposal
		}
		if text != filepath.Base(text) || text == "." || text == ".." {
			return nil, fmt.Errorf("%q has the separators of a path; give a name without them", text)
		}
		return screens.KeepReplay{Name: text}, nil
	})
}

// KeepReplay copies the journal of the replay to a file of its own.
func (m Session) KeepReplay(name string) tea.Cmd {
	if m.config.ReplaysFolder == "" {
		return func() tea.Msg { return replayKeptMsg{err: errors.New("there is no home folder to keep a replay in")} }
	}
	store, now := m.store, m.config.Clock.Now
	path := filepath.Join(m.config.ReplaysFolder, name, "journal.db")
	return func() tea.Msg { return replayKeptMsg{path, copyEvents(store, path, now)} }
}

// copyEvents writes the events of a night to a new journal at path, in a folder of its own.
//
// Error: fs.ErrExist if the folder is there already, and stays as it is.
func copyEvents(from fallback.Store, path string, now func() time.Time) (err error) {
	events, err := from.Since(0)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(filepath.Dir(path)), 0o700); err != nil {
		return fmt.Errorf("keeping the replay: %w", err)
	}
	if err := os.Mkdir(filepath.Dir(path), 0o700); err != nil {
		return fmt.Errorf("keeping the replay: %w", err)
	}
	to, err := journal.Open(path, writerName, now)
	if err != nil {
		return fmt.Errorf("keeping the replay: %w", err)
	}
	defer func() { err = errors.Join(err, to.Close()) }()
	for _, e := range events {
		if _, err := to.Append(e.Night, e.Kind, e.At, e.Body); err != nil {
			return fmt.Errorf("keeping the replay: %w", err)
		}
	}
	return nil
}

// replayKept tells where the replay is.
func (m Session) replayKept(msg replayKeptMsg) Session {
	switch {
	case errors.Is(msg.err, fs.ErrExist):
		m.Notice = "there is a replay of that name already, at " + msg.path + "; leave again, and give another"
	case msg.err != nil:
		m.Notice = msg.err.Error()
	default:
		m.spoken = false
		m.Notice = "Kept. To print it: duskhand record --journal " + msg.path
	}
	return m
}
