package command

import (
	"fmt"

	"duskhand/checklist/unwritten"
	"duskhand/plan"
)

// waitingBeside returns how many events of a night lie in files beside the journal, because it could not be written
// when the program was left: who reads the journal alone does not know them.
func waitingBeside(journalPath string, date plan.Date) (events int, err error) {
	files, err := unwritten.Waiting(journalPath)
	if err != nil {
		return 0, fmt.Errorf("reading what waits for the journal: %w", err)
	}
	for _, f := range files {
		for _, e := range f.Events {
			if e.Night == date.String() {
				events++
			}
		}
	}
	return events, nil
}

func areOrIs(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}
