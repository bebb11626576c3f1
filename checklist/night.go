package checklist

import (
	"time"

	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/sky"
)

// Night is what the events of a night add up to. It is a value: Next returns another one and leaves
// this one as it was. All instants are on the clock as it goes now, see OnOneClock: differences
// are true durations.
type Night struct {
	Key    string  // the events' Night
	Opened *Opened // nil if no program has opened the night yet
	Target *Target // nil if none is chosen yet

	DerotatorOn    bool
	DerotatorSince time.Time  // when it was turned on or off last; zero if never
	Parked         *sky.Angle // where it stands while it is off; nil while it is on, or unknown
	Anchor         *Anchor    // the angle that it tracks on from; nil while it is off, or unknown
	Readings       []Reading  // of the open run, oldest first; the run's own start is not among them

	Runs []Run // in order; only the last one can be open
	Subs *Subs // being taken now; nil if none are

	Axis *Axis // as measured last; nil if never
	// AxisBefore is the axis as stars, a level or a person had it last, which fits of readings and frames go out
	// from; nil if never. FitRefused tells that such a fit by frames was taken back.
	AxisBefore *Axis
	FitRefused bool
	Zero       *Zero // of the camera's angle, as fitted tonight; nil if it was not
	// Landings are where the go-tos ended that a light has shown, the latest last.
	Landings []Landing
	// Sights are the stars centred tonight with the mount's readouts, one of each star, the latest last.
	Sights []plan.Sight
	// Centred are the stars centred tonight, whether or not the readouts were given, each once, as centred first.
	Centred []Centred
	Notes   []Note

	// Framings is how targets are wanted on the chip, one of each, the latest last.
	Framings []Framing

	Divided *Division // among several targets, as said last; nil if nothing was said

	Arrived []Arrived // frames of the capture computer, in the order in which they were read

	Focused      *Focused      // when the telescopes were focused last; nil if never
	Temperatures []Temperature // as read, oldest first
	Humidities   []Humidity    // as read, oldest first

	Guiding   Guiding
	Recentred *time.Time // when the target was brought back to its place last; nil if never
	Cables    Cables
	Cloud     *time.Time // since when the target is behind cloud; nil if it is clear

	Undoable   *journal.Event // what an undo would undo; nil if nothing
	Redoable   *journal.Event // the undo that a redo would take back; nil if none is last
	PassedOver []int64        // ordinals of events of unknown kinds or bodies

	// Latest is the latest instant at which anything happened to derotator, target or subs; zero if
	// nothing has. An event said to be earlier counts as of then, and Behind is by how much the last
	// one was: more than a little, and the clock has jumped back unnoticed.
	Latest time.Time
	Behind time.Duration

	// Count is that of the machine which wrote the night last; zero if nobody knows.
	Count Count

	chosen time.Time     // when the present target was chosen last; zero if none was
	newest time.Time     // the latest instant of any event
	doubt  time.Duration // by how much the clock went back unnoticed over a start of the machine; 0 if settled

	marks []mark // what steps of the checklist go by, in order
	loops int    // how often the loop of steps has reopened
	used  bool   // a run or subs have begun since
	begun bool   // subs have been taken this night

	past *past
}

// Opened says when a program first opened the night, and the kit and target it was last opened with.
type Opened struct {
	At     time.Time
	Kit    string
	Target string // a name, "" if none
}

// Target is what the night points at.
type Target struct {
	Name string
	Star sky.Star
}

// Why is how an anchor came to be known.
type Why string

// The ways in which the derotator's angle becomes known.
const (
	WhyOn      Why = "turned on"
	WhyRewound Why = "rewound"
	WhyRead    Why = "read"
	WhyTarget  Why = "target changed"
)

// Anchor is an instant at which the derotator's mechanical angle was known.
type Anchor struct {
	At    time.Time
	Angle sky.Angle
	Why   Why
}

// Reading is the derotator's mechanical angle as somebody read it.
type Reading struct {
	At    time.Time
	Angle sky.Angle
}

// Axis is the lean of the mount's azimuth axis: by Tilt towards the azimuth Toward, ± Uncertainty.
type Axis struct {
	At                        time.Time
	Tilt, Toward, Uncertainty sky.Angle
	Spread                    *plan.Spread // nil if no fit gave one
	How                       string
	By                        FitBy
}

// FitBy is what a fit of the axis went by that is fitted anew as the night goes on.
type FitBy string

// The ways. What was sighted, levelled or typed is none of them.
const (
	ByReadings FitBy = "readings" // of the derotator, in one run
	ByFrames   FitBy = "frames"   // placed lights, with readings and known starts
)

// Note is what somebody wrote down.
type Note struct {
	At   time.Time
	Text string
}

// past is one event and those before it. The chain is shared by all nights that grew from it.
type past struct {
	event  journal.Event
	before *past
}

// Fold returns what the events of one night, in the order of their ordinals, add up to.
//
// Events of unknown kinds are passed over. Undone events count as if they had not been written; an undo
// can be undone.
func Fold(events []journal.Event) Night {
	var chain *past
	for _, e := range events {
		chain = &past{event: e, before: chain}
	}
	return foldPast(chain, events)
}

// Next returns the night with one more event: the same as Fold of all events so far.
func (n Night) Next(e journal.Event) Night {
	chain := &past{event: e, before: n.past}
	if n.refolds(e) {
		return foldPast(chain, chain.events())
	}
	next := n.sealed()
	next.past = chain
	next.apply(e)
	return next
}

// refolds tells that an event changes what was said before it: an undo, or what shifts it.
func (n Night) refolds(e journal.Event) bool {
	switch e.Kind {
	case KindUndone, KindClockJumped, KindNightOpened:
		return true
	}
	return n.doubt > 0
}

func foldPast(chain *past, events []journal.Event) Night {
	n := Night{past: chain}
	cancelled := cancelledBy(events)
	events, n.doubt = onOneClock(events, cancelled)
	facts := map[int64]bool{}
	for _, e := range events {
		n.Key = e.Night
		n.heard(e)
		if e.Kind == KindUndone {
			if body, ok := decode[UndoneBody](e); ok && facts[body.Ordinal] && !cancelled[e.Ordinal] {
				n.Redoable = &e
			}
			continue
		}
		facts[e.Ordinal] = canBeUndone(e.Kind)
		if !cancelled[e.Ordinal] {
			n.apply(e)
			continue
		}
		if body, ok := decode[AxisMeasuredBody](e); ok && e.Kind == KindAxisMeasured {
			n.FitRefused = n.FitRefused || FitBy(body.By) == ByFrames
		}
	}
	return n
}

// canBeUndone says whether an undo reaches events of the kind. What the program noticed by itself is
// not undone, nor an undo but by a redo, nor what this version does not know.
func canBeUndone(kind string) bool {
	switch kind {
	case KindNightOpened, KindClockJumped, KindUndone, KindSubArrived:
		return false
	}
	return stepOf(kind) != nil
}

// cancelledBy returns the ordinals of the events that are undone. An undo comes after what it undoes,
// so going backwards each is known to count or not before it is asked.
func cancelledBy(events []journal.Event) map[int64]bool {
	cancelled := map[int64]bool{}
	for i := len(events) - 1; i >= 0; i-- {
		e := events[i]
		if e.Kind != KindUndone || cancelled[e.Ordinal] {
			continue
		}
		if body, ok := decode[UndoneBody](e); ok && body.Ordinal < e.Ordinal {
			cancelled[body.Ordinal] = true
		}
	}
	return cancelled
}

// Counting returns the events that still count: without those that were undone, and without the undoing.
// It is what a replay of the night says.
func Counting(events []journal.Event) []journal.Event {
	cancelled := cancelledBy(events)
	var counting []journal.Event
	for _, e := range events {
		if e.Kind != KindUndone && !cancelled[e.Ordinal] {
			counting = append(counting, e)
		}
	}
	return counting
}

func (p *past) events() []journal.Event {
	count := 0
	for at := p; at != nil; at = at.before {
		count++
	}
	events := make([]journal.Event, count)
	for at := p; at != nil; at = at.before {
		count--
		events[count] = at.event
	}
	return events
}
