package fallback

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"duskhand/checklist/journal"
	"duskhand/checklist/unwritten"
	"duskhand/sky/words"
)

// Config is what opening a journal needs: its path, the name by which this program signs its events, the clock, and the
// zone in which instants are told.
type Config struct {
	Path   string
	Writer string
	Now    func() time.Time
	Zone   *time.Location
}

// Opened is a journal with what it has of a night.
type Opened struct {
	Store     Store
	Events    []journal.Event
	Follows   string // who writes the journal, if it is only read
	Notice    string // what the person must know of the opening: what was salvaged
	Unwritten string // why the night is kept in memory for now; "" if it is on the disk
	Pending   int    // how many events are there only
}

// Open opens the journal of a night for writing; for reading where another program writes it; in memory where it can't
// be opened, as long as that is so. Error: what went wrong beside that. Opened.Store is nil if there is none at all.
func Open(c Config, night string) (o Opened, err error) {
	j, err := journal.OpenOnceFree(c.Path, c.Writer, c.Now, patience(c, night))
	var held *journal.HeldError
	if errors.As(err, &held) {
		o.Follows = HeldWords(held.Owner, c.Zone)
		j, err = journal.OpenReader(c.Path)
	}
	if err != nil {
		return refuge(c, night, err)
	}
	if report, damaged := j.Salvage(); damaged {
		o.Notice = report.Words(c.Zone)
	}
	o.Store = j
	if o.Follows == "" {
		o.Notice = strings.TrimSpace(o.Notice + " " + j.Exposed())
		o.Notice = strings.TrimSpace(o.Notice + " " + unwritten.TakeInAll(j, c.Path))
		o.Pending = j.Pending()
	}
	if o.Events, err = j.Events(night); err != nil {
		return o, fmt.Errorf("reading the journal: %w", err)
	}
	if o.Follows == "" && len(o.Events) == 0 {
		err = backUpEarlier(j)
	}
	return o, err
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
		if asked++; asked > timesAsked || owner.Writer == c.Writer && canBeFollowed(c, night) {
			return false
		}
		time.Sleep(betweenAsks)
		return true
	}
}

// canBeFollowed tells whether the journal is there and tells its events.
func canBeFollowed(c Config, night string) bool {
	j, err := journal.OpenReader(c.Path)
	if err != nil {
		return false
	}
	_, err = j.Events(night)
	return errors.Join(err, j.Close()) == nil
}

// refuge goes on in memory, with what can be read of the night.
func refuge(c Config, night string, cause error) (o Opened, err error) {
	o.Unwritten = fmt.Sprintf("the night is kept in memory until the journal can be opened, which is tried again and again: %v", cause)
	shelter, events, err := InMemory(c, night)
	if shelter == nil {
		return o, errors.Join(cause, err)
	}
	if err != nil {
		o.Notice = fmt.Sprintf("not all that the disk holds of this night can be read (%v); it is left there as it is", err)
	}
	o.Store, o.Events, o.Pending = shelter, events, shelter.Pending()
	return o, nil
}

// TakeOver makes this program the writer in the place of a reader. The other's next event is refused, and it is told so.
func TakeOver(c Config, night string, reader Store) (o Opened, err error) {
	j, err := journal.TakeOver(c.Path, c.Writer, c.Now)
	if err != nil {
		return o, err
	}
	o.Store = j
	if o.Events, err = j.Events(night); err != nil {
		err = fmt.Errorf("reading the journal: %w", err)
	}
	return o, errors.Join(err, reader.Close())
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

// HeldWords says who writes a night.
func HeldWords(o journal.Owner, zone *time.Location) string {
	return fmt.Sprintf("another %s writes this night, process %d since %s", o.Writer, o.PID, words.Minute(o.Since, zone))
}
