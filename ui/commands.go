package ui

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist/journal"
	"duskhand/plan/kit"
	"duskhand/ui/clock"
	"duskhand/ui/facts"
	"duskhand/ui/hook"
)

// eventStore is what the screens need of a journal.
type eventStore interface {
	Append(night, kind string, at time.Time, body any) (journal.Event, error)
	Events(night string) ([]journal.Event, error)
	Since(ordinal int64) ([]journal.Event, error)
	Backup() (path string, err error)
	Pending() int
	Unwritten() []journal.Event // what is in memory only, also after Close
	Retry() error
	Check() error            // looks whether its files are where they belong
	Renewed() (words string) // what the person must know if they were not, once
	Close() error
}

// tick waits for the next second of the night. A clock that is led by somebody needs none.
func tick(c clock.Clock, generation int) tea.Cmd {
	if !c.Ticks() {
		return nil
	}
	return tea.Tick(c.UntilNextSecond(), func(time.Time) tea.Msg { return tickMsg{generation} })
}

// writeEvent appends one event. The answer comes when it is on the disk.
func writeEvent(store eventStore, night, kind string, at time.Time, body any) tea.Cmd {
	return func() tea.Msg { return appendEvent(store, night, kind, at, body) }
}

func appendEvent(store eventStore, night, kind string, at time.Time, body any) eventWrittenMsg {
	event, err := store.Append(night, kind, at, body)
	var waiting *journal.WaitingError
	return eventWrittenMsg{night: night, event: event, err: err, kept: err == nil || errors.As(err, &waiting), pending: store.Pending(), renewed: store.Renewed()}
}

// checkFiles looks whether the journal is still on the disk while nothing is said.
func checkFiles(store eventStore) tea.Cmd {
	return func() tea.Msg {
		err := store.Check()
		return filesCheckedMsg{err: err, pending: store.Pending(), renewed: store.Renewed()}
	}
}

// followEvents asks what another program has written after an ordinal, and whether there is one that writes.
func followEvents(c Config, store eventStore, night string, after int64) tea.Cmd {
	return func() tea.Msg {
		all, err := store.Since(after)
		msg := eventsSeenMsg{night: night, upTo: after, err: err}
		if owner, writing := journal.Writing(c.JournalPath); writing {
			msg.writer = &owner
		}
		for _, e := range all {
			msg.upTo = e.Ordinal
			if e.Night == night {
				msg.events = append(msg.events, e)
			}
		}
		return msg
	}
}

// loadNight reads the events of another night.
func loadNight(store eventStore, night string) tea.Cmd {
	return func() tea.Msg {
		events, err := store.Events(night)
		return nightOpenedMsg{night: night, events: events, err: err}
	}
}

// backUp keeps a compact copy of the journal.
func backUp(store eventStore) tea.Cmd {
	return func() tea.Msg {
		_, err := store.Backup()
		return backedUpMsg{err}
	}
}

// retryWriting tries again to write what waits in memory.
func retryWriting(store eventStore) tea.Cmd {
	return func() tea.Msg {
		err := store.Retry()
		return retriedMsg{err, store.Pending()}
	}
}

// ring sounds the alarm: the terminal's bell, or the operator's own command, run without a shell and ended
// after a while; and a message on the desktop where the terminal shows one.
func ring(alarm kit.Alarm, messages Messages, terminal io.Writer, alert facts.Alert) tea.Cmd {
	sound := ""
	if alarm.Bell == "bell" {
		sound = "\a"
	}
	if alarm.Notify {
		sound += messages.message(string(alert.Kind) + ": " + alert.Words)
	}
	write := func() error {
		_, err := io.WriteString(terminal, sound)
		return err
	}
	if alarm.Bell != "command" || len(alarm.Command) == 0 {
		if sound == "" {
			return nil
		}
		return func() tea.Msg { return alarmRungMsg{write()} }
	}
	command := append([]string(nil), alarm.Command...)
	return func() tea.Msg {
		ctx, cancel := context.WithTimeout(context.Background(), alarmTimeout)
		defer cancel()
		var failed error
		if err := hook.Command(ctx, command).Run(); err != nil {
			failed = fmt.Errorf("the alarm command %s failed: %w", command[0], err)
		}
		return alarmRungMsg{errors.Join(write(), failed)}
	}
}
