package session

import (
	"errors"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist/journal"
	"duskhand/checklist/journal/fallback"
	"duskhand/ui/follow"
)

// writeEvent appends one event. The answer comes when it is on the disk.
func writeEvent(store fallback.Store, night, kind string, at time.Time, body any) tea.Cmd {
	return func() tea.Msg { return appendEvent(store, night, kind, at, body) }
}

func appendEvent(store fallback.Store, night, kind string, at time.Time, body any) eventWrittenMsg {
	event, err := store.Append(night, kind, at, body)
	var waiting *journal.WaitingError
	return eventWrittenMsg{night: night, event: event, err: err,
		kept: err == nil || errors.As(err, &waiting), pending: store.Pending(), renewed: store.Renewed()}
}

// checkFiles looks whether the journal is still on the disk while nothing is said.
func checkFiles(store fallback.Store) tea.Cmd {
	return func() tea.Msg {
		err := store.Check()
		return filesCheckedMsg{err: err, pending: store.Pending(), renewed: store.Renewed()}
	}
}

// followEvents asks what another program has written after an ordinal, and whether there is one that writes.
func followEvents(c Config, store fallback.Store, night string, after int64) tea.Cmd {
	return func() tea.Msg {
		msg := eventsSeenMsg{night: night}
		msg.events, msg.upTo, msg.err = follow.Since(store, night, after)
		if owner, writing := journal.Writing(c.JournalPath); writing {
			msg.writer = &owner
		}
		return msg
	}
}

// loadNight reads the events of another night.
func loadNight(store fallback.Store, night string) tea.Cmd {
	return func() tea.Msg {
		events, err := store.Events(night)
		return nightOpenedMsg{night: night, events: events, err: err}
	}
}

// backUp keeps a compact copy of the journal.
func backUp(store fallback.Store) tea.Cmd {
	return func() tea.Msg {
		_, err := store.Backup()
		return backedUpMsg{err}
	}
}

// retryWriting tries again to write what waits in memory.
func retryWriting(store fallback.Store) tea.Cmd {
	return func() tea.Msg {
		err := store.Retry()
		return retriedMsg{err, store.Pending()}
	}
}
