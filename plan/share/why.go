package share

import (
	"time"

	"duskhand/plan"
)

// NoTurn is why a target gets nothing of a night.
type NoTurn string

// The reasons.
const (
	NeverDark NoTurn = "never dark" // enough, this night
	Wanted    NoTurn = "complete"   // all that is wanted of it is taken
	InKeyhole NoTurn = "keyhole"    // all the time that it is up in the dark
	NotUp     NoTurn = "not up"     // above the floor and clear of the horizon in what is left of the dark
	NoRun     NoTurn = "no run"     // that a sub fits
	NoRoom    NoTurn = "no room"    // beside the others
)

// Ending is why a stretch ends where it does.
type Ending struct {
	Why         Ends
	At          time.Time  // of Closes and Obstructed: when its window closes
	Bound       plan.Bound // of Closes: what closes it
	Obstruction string     // of Obstructed: what the horizon profile names there
}

// Ends is a kind of Ending.
type Ends string

// The kinds of endings.
const (
	Complete   Ends = "complete" // all that is wanted of the target is taken then
	NightOver  Ends = "night over"
	Closes     Ends = "window closes"
	Obstructed Ends = "obstructed"
	HandedOver Ends = "handed over" // so that the others get their share
)
