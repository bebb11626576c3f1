package screens

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/ui/keys"
)

// Intent is what a room, or the answer to a question, asks of the root. nil asks nothing.
type Intent interface{ intent() }

// The intents.
type (
	// Say has an action written to the journal.
	Say struct{ Action checklist.Action }
	// Ask asks a question in the footer.
	Ask struct{ Prompt Prompt }
	// Tell tells something, until the next key.
	Tell struct{ Words string }
	// Go opens another room.
	Go struct{ To keys.Screen }
	// Hand gives the room of a screen a message: the answer to its question.
	Hand struct {
		To  keys.Screen
		Msg tea.Msg
	}
	// ChoosePair takes a pair of the list in hand; the checklist names its stars.
	ChoosePair struct{ Pair int }
	// Leave leaves the program, whatever is lost.
	Leave struct{}
	// AskKeep asks for a name to keep a replay under.
	AskKeep struct{}
	// KeepReplay keeps a replay under a name.
	KeepReplay struct{ Name string }
	// AskWriter asks who writes the night, where another program does.
	AskWriter struct{}
	// TakeOver makes this program the one that writes.
	TakeOver struct{}
)

func (Say) intent()        {}
func (Ask) intent()        {}
func (Tell) intent()       {}
func (Go) intent()         {}
func (Hand) intent()       {}
func (ChoosePair) intent() {}
func (Leave) intent()      {}
func (AskKeep) intent()    {}
func (KeepReplay) intent() {}
func (AskWriter) intent()  {}
func (TakeOver) intent()   {}
