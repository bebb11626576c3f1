package rehearsal

import (
	"errors"
	"io/fs"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/plan/kit"
)

// Script returns what is said in a replayed night up to an instant: the example's own scenario, or what the journal has
// of that night, if it has anything; of that all, also what is said later. Steps are the program's own if they are none.
func Script(k kit.Kit, steps checklist.List, journalPath string, date plan.Date,
	until time.Time) ([]journal.Event, error) {
	if len(steps.All()) == 0 {
		steps = checklist.Steps()
	}
	if k.Example {
		return Example(k, steps, date, until)
	}
	j, err := journal.OpenReader(journalPath)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	events, err := j.Events(date.String())
	return checklist.Counting(events), errors.Join(err, j.Close())
}
