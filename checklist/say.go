package checklist

import (
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// Action is something that a person or a script says has happened: one of the types of this file. Say
// turns it into an event.
type Action interface {
	// event returns kind and body, or in words why this makes no sense in the night.
	event(n Night, zone *time.Location) (kind string, body any, err error)
}

// Say returns the event that the action makes in the night, to be appended to the journal.
//
// What depends on the checklist's steps (whether the step exists, its guards) List.Say judges.
//
// Error: the action makes no sense now; in words for the person, with times in the given zone.
func Say(n Night, a Action, zone *time.Location) (kind string, body any, err error) {
	return a.event(n, zone)
}

// OpenNight says that the program was started for the night. Target is a name or "". Count is the machine's,
// zero where nobody knows it.
type OpenNight struct {
	Kit, Target string
	Count       Count
}

// ChooseTarget says what the night points at from now on. Angle is the derotator's mechanical angle at
// that moment, nil if it is off or nobody knows it; then a reading must follow.
type ChooseTarget struct {
	Target Target
	Angle  *sky.Angle
}

// TurnOn says that the derotator is on and seen to turn. Angle is its mechanical angle at that moment,
// nil for where it stands.
type TurnOn struct{ Angle *sky.Angle }

// TurnOff says that the derotator is off. Angle is where it was left, nil if nobody knows.
type TurnOff struct{ Angle *sky.Angle }

// Rewound says that the derotator has been turned to the mechanical angle To. From is where it was
// before, nil if nobody read it. While the derotator is off this sets where it will start.
type Rewound struct {
	From *sky.Angle
	To   sky.Angle
}

// Read says that the derotator's scale shows the mechanical angle.
type Read struct{ Angle sky.Angle }

// StartSubs says that exposures go on from now through Filter, "" if nobody says which. Another filter
// while they go on begins a new stretch. Order is in which order the filters come then, none for as they take turns.
type StartSubs struct {
	Filter string
	Order  []plan.FilterCount
}

// StopSubs says that no exposure is going on.
type StopSubs struct{}

// MeasureAxis says how the mount's azimuth axis leans: by Tilt [0°, 90°) towards the azimuth Toward,
// ± Uncertainty (≥ 0°). Spread is the covariance that a fit gave, nil if there is none.
type MeasureAxis struct {
	Tilt, Toward, Uncertainty sky.Angle
	Spread                    *plan.Spread
	How                       string
	By                        FitBy
}

// DoStep says that a step of the checklist, by its id, is done.
type DoStep struct{ Step string }

// SkipStep says that a step is left out on purpose; Reason must be given.
type SkipStep struct{ Step, Reason string }

// FailStep says that a step was tried and did not succeed; Note, what happened, must be given.
type FailStep struct{ Step, Note string }

// WriteNote says something in free words.
type WriteNote struct{ Text string }

// NoticeJump says that the clock jumped: at one and the same moment it would have shown From and showed
// To.
type NoticeJump struct{ From, To time.Time }

// Undo takes the last event that counts back.
type Undo struct{}

// Redo takes the last undo back, as long as nothing has been said since.
type Redo struct{}
