package session

import (
	"errors"
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist/journal"
	"duskhand/checklist/journal/fallback"
	"duskhand/checklist/rehearsal"
	"duskhand/plan"
	"duskhand/ui/follow"
)

// writerName is how this program signs its events.
const writerName = "duskhand"

// openJournal opens the journal of the night. The example and replays of other nights are kept in memory
// only, and say what that night said as its time comes; a night in the present is on the disk.
func openJournal(c Config, date plan.Date, now time.Time) tea.Cmd {
	if c.onDisk() {
		return func() tea.Msg { return openOnDisk(c, date) }
	}
	return func() tea.Msg { return openReplay(c, date, now) }
}

// onDisk tells whether this is a night in the present, of a kit of one's own.
func (c Config) onDisk() bool { return !c.Clock.Replaying() && !c.Kit.Example }

// atPath says how the journal on the disk is opened.
func (c Config) atPath() fallback.Config {
	return fallback.Config{Path: c.JournalPath, Writer: writerName, Now: c.Clock.Now, Zone: c.Kit.Site.Zone}
}

func openOnDisk(c Config, date plan.Date) journalOpenedMsg {
	opened, err := fallback.Open(c.atPath(), date.String())
	return journalOpenedMsg{Opened: opened, night: date.String(), err: err}
}

// takeOver makes this program the writer.
func takeOver(c Config, night string, reader fallback.Store) tea.Cmd {
	return func() tea.Msg {
		opened, err := fallback.TakeOver(c.atPath(), night, reader)
		if opened.Store == nil {
			return takenOverMsg{err: err}
		}
		return journalOpenedMsg{Opened: opened, night: night, err: err}
	}
}

func inMemory(c Config, msg journalOpenedMsg, err error) journalOpenedMsg {
	j, memoryErr := journal.InMemory(writerName, c.Clock.Now)
	if memoryErr != nil {
		err = errors.Join(err, memoryErr)
	} else {
		msg.Store = j
	}
	msg.err = err
	return msg
}

func openReplay(c Config, date plan.Date, now time.Time) journalOpenedMsg {
	msg := inMemory(c, journalOpenedMsg{night: date.String()}, nil)
	if msg.err != nil {
		return msg
	}
	script, err := rehearsal.Script(c.Kit, c.Steps, c.JournalPath, date, now)
	if err != nil {
		msg.err = fmt.Errorf("reading the night to replay: %w", err)
	}
	said, rest := follow.Due(script, now)
	msg.script = rest
	for _, e := range said {
		written, err := msg.Store.Append(msg.night, e.Kind, e.At, e.Body)
		if err != nil {
			msg.err = fmt.Errorf("reading the night to replay: %w", err)
			break
		}
		msg.Events = append(msg.Events, written)
	}
	return msg
}
