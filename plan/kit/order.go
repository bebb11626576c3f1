package kit

import "time"

// Order is how the filters of a target follow one another.
type Order string

// The orders.
const (
	ByWorth   Order = "by worth"   // each when its subs are worth most
	AsWritten Order = "as written" // they take turns, in the order of the file
)

// ChangeTime returns what a change from one filter to another, by their numbers, takes beside a sub's overhead: none
// from a filter to itself.
func (s Subs) ChangeTime(from, to int) time.Duration {
	switch {
	case from == to:
		return 0
	case s.Filters[from].FocusOffsetUM != s.Filters[to].FocusOffsetUM:
		return s.FilterChange + s.Refocus
	}
	return s.FilterChange
}
