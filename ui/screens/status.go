// Package screens is what the rooms share: the status of the night that each is handed, what a room is and may ask for,
// and the parts that several of them draw. Each room is a package below it.
package screens

import (
	"time"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/ui/bell"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
	"duskhand/ui/say"
)

// Status is the night at an instant, as values.
type Status struct {
	Kit     kit.Kit
	Charset draw.Charset
	Width   int // of the window
	Height  int
	Screen  keys.Screen // that shows
	Keys    keys.Table  // as they can be pressed now

	Now      time.Time
	Date     plan.Date
	Mark     string // what kind of night it is, if not the real one: it stands on every screen
	Follows  string // who writes the journal, if another program does
	Unkept   string // why nothing that is said stays, "" where it does
	Orphaned bool   // that program has ended

	Log     checklist.Night
	Tonight *facts.Tonight // nil until the journal is open
	Run     facts.Run
	Advice  advice.Advice
	Price   plan.Price // of not knowing the axis; none until it has been found
	Alerts  []say.Alert
	Bell    bell.Bell
	Stars   facts.Stars // while they matter; Chosen is the pair in hand
	Subs    facts.Subs
	Unseen  string // what of the subs' folders can't be looked at
	List    List

	Past func() ([]journal.Event, error) // reads all nights; nil until the journal is open
}

// List is the checklist at an instant.
type List struct {
	Steps  checklist.List
	States []checklist.StepState
	Next   int               // the one to do next; −1 when all are settled
	Facts  map[string]string // of the night, for the steps' sentences
}

// Name is the key of the night in the journal.
func (s Status) Name() string { return s.Date.String() }

// Zone is the site's.
func (s Status) Zone() *time.Location { return s.Kit.Site.Zone }

// Heeded returns the alerts that are on and not kept quiet, what calls before what warns.
func (s Status) Heeded() []say.Alert { return s.Bell.Heeded(s.Alerts, s.Now) }

// Unsaid returns what is on besides the run, unless it is kept quiet.
func (s Status) Unsaid() []say.Alert { return say.Unsaid(s.Heeded()) }

// Voice says the advice of the instant.
func (s Status) Voice() say.Voice {
	named := s.Keys // of the status alone these are kept by the function
	return say.Voice{Run: s.Run, Advice: s.Advice, Steps: s.List.States, Facts: s.List.Facts,
		Alerts: s.Unsaid(),
		Key:    func(action string) string { return named.Shown(keys.Action(action)) }}
}
