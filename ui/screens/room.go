package screens

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/ui/draw"
	"duskhand/ui/keys"
)

// Room is one screen with what it keeps: a value. Update returns it as it is after a message, what it asks of the root
// (nil for nothing), and a command, whose message comes back to it. View writes nothing but the cells of its window.
type Room interface {
	Update(Status, tea.Msg) (Room, Intent, tea.Cmd)
	View(Status, Window)
}

// Window is where a room draws: all of the terminal, the footer included.
type Window struct {
	Area   draw.Area
	Footer Footer
}

// What a room is told beside the answers to its own commands.
type (
	// Pressed says that a key of the table was pressed while the room shows.
	Pressed struct{ Action keys.Action }
	// Entered says that the room shows from now on.
	Entered struct{}
	// Changed says that the night has gone on while the room shows.
	Changed struct{}
	// Settled says that all of an instant has been handled, while the room shows: it may have things computed.
	Settled struct{}
	// Second says that one has passed, to every room.
	Second struct{}
)

// KeyHolder is a room that some keys hang on.
type KeyHolder interface {
	// Keys returns the state of the keys with what the room knows of it, while it shows.
	Keys(Status, keys.State) keys.State
}

// Offerer is a room with something of its own for the one key.
type Offerer interface {
	// Offers returns what the one key says while the room shows; ok is false if that is what is advised.
	Offers(Status) (offer Offer, ok bool)
}

// Offer is what the one key says: the words for the footer, "" for nothing, and the action.
type Offer struct {
	Words  string
	Action checklist.Action
}

// Drafter is a room that holds what has been entered and not been said yet.
type Drafter interface {
	// Keep returns the room without the draft, and the action that says it, nil if there is none.
	Keep() (Room, checklist.Action)
	// Drop returns the room without the draft; ok is false if there is none.
	Drop(Status) (room Room, ok bool)
}
