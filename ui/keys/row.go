package keys

import (
	"cmp"
	"slices"
)

// Action is what a key does, by the name that the kit's section [keys] has for it.
type Action string

// Row is all that is known of one action.
type Row struct {
	Action Action
	Keys   []string // the default, as the kit writes them
	On     []Screen // where it can be pressed; none are all
	Help   string   // in the sheet of keys
	When   func(State) bool

	HelpOn map[Screen]string // where it does another thing than elsewhere
	InKit  string            // the help in the kit's reference where that has to say more than Help
	Short  string            // in the footer; "" if it is not named there, or by words of the instant
	Place  int               // in the footer, from the left; 0 if it is not named there
	Pinned bool              // the footer names it whatever else there is
	Named  func(State) bool  // when the footer names it; nil is always
	Says   bool              // it says something of the night: who presses it in vain is told why
	Fixed  bool              // the kit can't change it
	Sheet  bool              // it moves the sheet of keys, whatever screen that covers
}

// State is what it hangs on which keys can be pressed.
type State struct {
	Screen  Screen
	Read    bool // the night has been read
	Writes  bool // and this program writes it
	Offers  bool // there is something that the one key would say
	On      bool // the derotator is
	Subs    bool // are being taken
	Targets int  // in the kit

	Undoable, Redoable bool
	Helping            bool // the sheet of keys shows
	Rings              bool // an alarm does, and is not kept quiet
	NewKit             bool // a kit can be made

	Steps     bool // the checklist has steps
	Elsewhere bool // another of them is chosen than the next
	Chosen    bool // a target is chosen among the ranked ones
	Air       bool // the page that shows asks for temperature and humidity
	Draft     bool // a framing has been entered and is not kept yet
}

// helpIn is the help of a row on a screen.
func (r Row) helpIn(s Screen) string {
	if words, another := r.HelpOn[s]; another {
		return words
	}
	return r.Help
}

// kitHelp is the help of a row in the kit's reference.
func (r Row) kitHelp() string { return cmp.Or(r.InKit, r.Help) }

// IsOn tells whether a row's key belongs to a screen.
func (r Row) IsOn(s Screen) bool { return r.isOn(s) }

// isOn tells whether a row's key can be pressed on a screen.
func (r Row) isOn(s Screen) bool { return len(r.On) == 0 || slices.Contains(r.On, s) }

// meets tells whether two actions can be pressed on one screen.
func (r Row) meets(other Row) bool {
	for s := range ScreenCount {
		if r.isOn(s) && other.isOn(s) {
			return true
		}
	}
	return false
}
