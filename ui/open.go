package ui

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/checklist/unwritten"
	"duskhand/plan"
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

func openOnDisk(c Config, date plan.Date) journalOpenedMsg {
	msg := journalOpenedMsg{night: date.String()}
	j, err := journal.OpenOnceFree(c.JournalPath, writerName, c.Clock.Now, patience(c, msg.night))
	var held *journal.HeldError
	if errors.As(err, &held) {
		msg.follows = heldWords(held.Owner, c.Kit.Site.Zone)
		j, err = journal.OpenReader(c.JournalPath)
	}
	if err != nil {
		return takeRefuge(c, msg, err)
	}
	if report, damaged := j.Salvage(); damaged {
		msg.notice = report.Words(c.Kit.Site.Zone)
	}
	msg.journal = j
	if msg.follows == "" {
		msg.notice = strings.TrimSpace(msg.notice + " " + j.Exposed())
		msg.notice = strings.TrimSpace(msg.notice + " " + unwritten.TakeInAll(j, c.JournalPath))
		msg.pending = j.Pending()
	}
	if msg.events, err = j.Events(msg.night); err != nil {
		msg.err = fmt.Errorf("reading the journal: %w", err)
	} else if msg.follows == "" && len(msg.events) == 0 {
		msg.err = backUpEarlier(j)
	}
	return msg
}

// A journal that another program has is asked for so many times, so far apart.
const (
	timesAsked  = 40
	betweenAsks = 50 * time.Millisecond
)

// patience waits while whoever holds the journal will let it go soon, as a script that says something does, or is only
// making it, as screens do that were started in the same moment. Other screens are not waited for: they stay.
func patience(c Config, night string) func(journal.Owner) bool {
	asked := 0
	return func(owner journal.Owner) bool {
		if asked++; asked > timesAsked || owner.Writer == writerName && canBeFollowed(c, night) {
			return false
		}
		time.Sleep(betweenAsks)
		return true
	}
}

// canBeFollowed tells whether the journal is there and tells its events.
func canBeFollowed(c Config, night string) bool {
	j, err := journal.OpenReader(c.JournalPath)
	if err != nil {
		return false
	}
	_, err = j.Events(night)
	return errors.Join(err, j.Close()) == nil
}

// takeRefuge goes on in memory, with what can be read of the night.
func takeRefuge(c Config, msg journalOpenedMsg, cause error) journalOpenedMsg {
	msg.follows = ""
	msg.unwritten = fmt.Sprintf("the night is kept in memory until the journal can be opened, which is tried again and again: %v", cause)
	shelter, events, err := newRefuge(c, msg.night)
	if shelter == nil {
		msg.err = errors.Join(cause, err)
		return msg
	}
	if err != nil {
		msg.notice = fmt.Sprintf("not all that the disk holds of this night can be read (%v); it is left there as it is", err)
	}
	msg.journal, msg.events, msg.pending = shelter, events, shelter.Pending()
	return msg
}

// backUpEarlier keeps a copy of the journal as the night before left it, at the first opening of a new
// night, unless there is one already.
func backUpEarlier(j *journal.Journal) error {
	nights, err := j.Nights()
	if err != nil || len(nights) == 0 {
		return err
	}
	events, err := j.Events(nights[len(nights)-1])
	if err != nil || len(events) == 0 {
		return err
	}
	if made, ok := j.NewestBackup(); ok && made.After(events[len(events)-1].Written) {
		return nil
	}
	_, err = j.Backup()
	return err
}

func heldWords(o journal.Owner, zone *time.Location) string {
	return fmt.Sprintf("another %s writes this night, process %d since %s", o.Writer, o.PID, o.Since.In(zone).Format("15:04"))
}

// takeOver makes this program the writer. The other's next event is refused, and it is told so.
func takeOver(c Config, night string, reader eventStore) tea.Cmd {
	return func() tea.Msg {
		msg := journalOpenedMsg{night: night}
		j, err := journal.TakeOver(c.JournalPath, writerName, c.Clock.Now)
		if err != nil {
			return takenOverMsg{err: err}
		}
		msg.journal = j
		if msg.events, err = j.Events(night); err != nil {
			msg.err = fmt.Errorf("reading the journal: %w", err)
		}
		msg.err = errors.Join(msg.err, reader.Close())
		return msg
	}
}

func inMemory(c Config, msg journalOpenedMsg, err error) journalOpenedMsg {
	j, memoryErr := journal.InMemory(writerName, c.Clock.Now)
	if memoryErr != nil {
		err = errors.Join(err, memoryErr)
	} else {
		msg.journal = j
	}
	msg.err = err
	return msg
}

func openReplay(c Config, date plan.Date, now time.Time) journalOpenedMsg {
	msg := inMemory(c, journalOpenedMsg{night: date.String()}, nil)
	if msg.err != nil {
		return msg
	}
	script, err := scriptOf(c, date, now)
	if err != nil {
		msg.err = fmt.Errorf("reading the night to replay: %w", err)
	}
	for i, e := range script {
		if e.At.After(now) {
			msg.script = script[i:]
			break
		}
		written, err := msg.journal.Append(msg.night, e.Kind, e.At, e.Body)
		if err != nil {
			msg.err = fmt.Errorf("reading the night to replay: %w", err)
			break
		}
		msg.events = append(msg.events, written)
	}
	return msg
}

// scriptOf returns what is said in a replayed night: the example's own scenario, or what the journal has
// of that night, if it has anything.
func scriptOf(c Config, date plan.Date, now time.Time) ([]journal.Event, error) {
	if c.Kit.Example {
		return rehearse(c.Kit, c.Steps, date, now)
	}
	j, err := journal.OpenReader(c.JournalPath)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	events, err := j.Events(date.String())
	return checklist.Counting(events), errors.Join(err, j.Close())
}
