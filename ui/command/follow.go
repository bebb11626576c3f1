package command

import (
	"errors"
	"fmt"
	"io/fs"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/checklist/rehearsal"
	"duskhand/checklist/unwritten"
	"duskhand/plan"
	"duskhand/ui"
	"duskhand/ui/facts"
	"duskhand/ui/follow"
	"duskhand/ui/sentence"
	"duskhand/ui/spoken"
)

// follower reads a night as it goes, and never writes: what another program puts into the journal, or what a
// replayed night said as its time comes.
type follower struct {
	config ui.Config
	date   plan.Date
	log    checklist.Night
	opened bool // the night has an event

	journal *journal.Journal // nil in a replay, and until there is one
	seen    int64
	unread  error           // why files beside the journal can't be read
	waiting int             // events of the night that lie beside the journal and not in it
	script  []journal.Event // of a replay: what is yet to be said

	tonight *facts.Tonight
	derived time.Time
	stars   facts.Stars
}

// follow opens what the flags ask for: the night that the screens would show, without its screens.
func (p Program) follow(named string, asked screensAsked) (*follower, error) {
	k, path, err := p.openKit(named)
	if err != nil {
		return nil, err
	}
	steps, _, err := stepsBeside(path)
	if err != nil {
		return nil, err
	}
	now, err := p.clockFor(k, asked)
	if err != nil {
		return nil, err
	}
	return &follower{config: ui.Config{Kit: k, Steps: steps.For(k), KitPath: path, Clock: now, JournalPath: p.journalPath()}}, nil
}

// live tells whether the night is one in the present that a journal is kept of.
func (f *follower) live() bool { return !f.config.Clock.Replaying() && !f.config.Kit.Example }

// close lets the journal go.
func (f *follower) close() error {
	if f.journal == nil {
		return nil
	}
	return f.journal.Close()
}

// at brings the night to an instant, and returns it with what was said since the last.
//
// Error: the journal can't be read; the moment is then that of what is known.
func (f *follower) at(now time.Time) (m sentence.Moment, fresh []journal.Event, err error) {
	if date := plan.DateOf(f.config.Kit.Site.Place, now); date != f.date {
		err = f.begin(date, now)
		f.derive(now)
	} else {
		fresh, err = f.since(now)
		if len(fresh) > 0 || follow.Stale(f.derived, now) {
			f.derive(now)
		}
	}
	run := f.tonight.At(now)
	m = sentence.Moment{Run: run, Spoken: f.spoken().At(run, f.stars)}
	if f.waiting > 0 {
		m.Spoken.Mark = []string{unwritten.Counted(f.waiting) + " not in the journal yet", "NOT ALL"}
	}
	return m, fresh, errors.Join(err, f.unread)
}

func (f *follower) derive(now time.Time) {
	f.tonight, f.derived = facts.For(f.config.Kit, f.date, f.log, now, f.tonight).Using(f.config.Steps), now
	if f.live() {
		f.waiting, f.unread = waitingBeside(f.config.JournalPath, f.date)
	}
	if f.log.DerotatorSince.IsZero() && f.opened { // the steps until then name stars
		f.stars = f.tonight.StarsAt(now)
	}
}

// begin takes up a night with what has been said in it so far.
func (f *follower) begin(date plan.Date, now time.Time) error {
	f.date, f.log, f.opened, f.script = date, checklist.Night{}, false, nil
	if f.live() {
		events, err := f.read(func(j *journal.Journal) ([]journal.Event, error) { return j.Events(date.String()) })
		f.take(events)
		return err
	}
	noon := now.Add(24 * time.Hour) // more than the night has left
	events, err := rehearsal.Script(f.config.Kit, f.config.Steps, f.config.JournalPath, date, noon)
	said, rest := follow.Due(events, now)
	f.script = rest
	f.take(said)
	if err != nil {
		return fmt.Errorf("reading the night to replay: %w", err)
	}
	return nil
}

// since returns what was said after the instant before.
func (f *follower) since(now time.Time) (fresh []journal.Event, err error) {
	if !f.live() {
		fresh, f.script = follow.Due(f.script, now)
		f.take(fresh)
		return fresh, nil
	}
	fresh, err = f.read(func(j *journal.Journal) (events []journal.Event, err error) {
		events, f.seen, err = follow.Since(j, f.date.String(), f.seen)
		return events, err
	})
	f.take(fresh)
	return fresh, err
}

// read asks the journal, which may not be there yet.
func (f *follower) read(ask func(*journal.Journal) ([]journal.Event, error)) ([]journal.Event, error) {
	if f.journal == nil {
		j, err := journal.OpenReader(f.config.JournalPath)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, nil
		}
		if err != nil {
			return nil, err
		}
		f.journal = j
	}
	return ask(f.journal)
}

func (f *follower) take(events []journal.Event) {
	for _, e := range events {
		f.log, f.opened = f.log.Next(e), true
		f.seen = max(f.seen, e.Ordinal)
	}
}

func (f *follower) spoken() spoken.Night {
	return spoken.Night{Kit: f.config.Kit, Steps: f.config.Steps, Replaying: f.config.Clock.Replaying()}
}
