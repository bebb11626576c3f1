package advice

import (
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/sky"
)

// Advice is what is to be done at an instant: kinds and numbers, and no sentence.
type Advice struct {
	Do  Do
	Why Why

	// From is when it can begin, By when it must be over; nil where there is no such instant. What must end before
	// something goes by that thing's early bound, what can only begin after something by its late one.
	From, By *time.Time

	// What it is about, where it has one.
	Angle  *sky.Angle // mechanical, of the derotator
	Side   plan.Side  // of the travel
	Target string
	Filter string
	Step   string // the id of the checklist's step

	Gains time.Duration // of exposure, over not doing it; 0 where that is no number
	Level Level         // how loud it is
	Also  []Do          // what holds too, further down the order

	// Offer is what the one key would say; nil when the right thing is to wait.
	Offer checklist.Action
}

// Level is how loud an advice is: it rings when it grows.
type Level int

// The levels.
const (
	Quiet   Level = iota // nothing presses
	Warning              // soon, or something is amiss
	Calling              // now
)

// at returns a pointer to an instant, nil for the zero one.
func at(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	return &t
}

func angleOf(a sky.Angle) *sky.Angle { return &a }
