package kit

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Fault is one thing wrong in a kit file. Line counts from 1 and is 0 when the fault is of no line (a
// table that is missing). Key is the path of the key ("derotator.max_deg", "horizon[2].azimuth_deg",
// items counted from 1), "" for a fault of the whole line. Problem goes on from the key: what is wrong
// and what would be right.
type Fault struct {
	File         string
	Line         int
	Key, Problem string
}

// Error returns the fault as one line of text.
func (f Fault) Error() string {
	var where string
	switch {
	case f.File != "" && f.Line > 0:
		where = fmt.Sprintf("%s:%d: ", f.File, f.Line)
	case f.File != "":
		where = f.File + ": "
	case f.Line > 0:
		where = fmt.Sprintf("line %d: ", f.Line)
	}
	return where + strings.TrimLeft(f.Key+" "+f.Problem, " ")
}

// Faults is every fault of a file, by line.
type Faults []Fault

// Error returns one line of text for each fault.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the faults one by one, so that errors.As finds a Fault.
func (fs Faults) Unwrap() []error {
	all := make([]error, len(fs))
	for i, f := range fs {
		all[i] = f
	}
	return all
}

func (fs Faults) sort() {
	slices.SortStableFunc(fs, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Key, b.Key), cmp.Compare(a.Problem, b.Problem))
	})
}
