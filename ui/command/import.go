package command

import (
	"errors"
	"fmt"
	"path/filepath"

	"duskhand/checklist/journal"
	"duskhand/checklist/unwritten"
)

// recordWriter is how this command signs what it takes in.
const recordWriter = "duskhand record"

// importEvents takes into the journal what a file holds.
func (p Program) importEvents(path string) (err error) {
	path, err = filepath.Abs(path)
	if err != nil {
		return err
	}
	if path == p.journalPath() {
		return errors.New("that is the journal itself; give a file of events that waited for it, or another journal")
	}
	f, err := unwritten.Read(path)
	if err != nil {
		return fmt.Errorf("--import: %w", err)
	}
	if p.journalPath() == "" {
		return errors.New("there is no home folder for the journal; set XDG_STATE_HOME or HOME")
	}
	j, err := journal.Open(p.journalPath(), recordWriter, p.Clock.Now)
	var held *journal.HeldError
	if errors.As(err, &held) {
		return fmt.Errorf("%w; leave that program, then import", err)
	}
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, j.Close()) }()
	added, err := unwritten.TakeIn(j, f, nil)
	var waiting *journal.WaitingError
	if errors.As(err, &waiting) {
		return fmt.Errorf("%d of %d events are in the journal now and the rest can't be written; the file is as it was, and can be imported again: %w",
			added, len(f.Events), waiting.Cause)
	}
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(p.out(), "%s taken in; %d were in the journal already\n", unwritten.Counted(added), len(f.Events)-added)
	return err
}
