package share

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
)

// Share is a night divided.
type Share struct {
	Stretches []Stretch
	LeftOut   []LeftOut
	Orders    []Order // the best orders, by the scan; the first is the one that is planned, unless split
	Split     bool    // a target has two stretches

	Exposed time.Duration // the shutter open, over all stretches
	Subs    time.Duration // subs with their overheads
	Breaks  time.Duration // hand-overs
	Lost    time.Duration // from the first stretch's begin to the last's end, all that is not subs: breaks too
	Rewinds int           // but for those done in breaks
}

// Stretch is one target's part of the night.
type Stretch struct {
	plan.Span             // from the hand-over to the end of its last sub
	Ready       time.Time // when its break is over: subs may begin; From for the first of the night
	Target      kit.Target
	Course      *plan.Course
	Runs        plan.Schedule
	Begins      plan.Start    // the state that its runs are planned from,
	Subs        plan.Sequence // and where its subs stand then
	Rewinds     int           // but for one done in the break
	Exposed     time.Duration // the shutter open
	Wanted, Got float64       // shares of all exposure, over all the target's stretches
	Ends        Ending        // why it ends
}

// LeftOut is a target that gets nothing.
type LeftOut struct {
	Target kit.Target
	Why    NoTurn
}

// Order is one order of the targets at its best, by the scan.
type Order struct {
	Targets []string
	Begins  []time.Time     // of each target's break, of the first its start
	Subs    []time.Duration // of each, in this order
	Rewinds int
	Worth   float64 // what is compared: a hundredth more is a hundredth more time for all
}

// At returns the stretch that an instant belongs to: its break belongs to it already, for there one gets
// ready for it; before the first stretch it is the first. ok is false after the last.
func (s Share) At(t time.Time) (stretch Stretch, ok bool) {
	for _, stretch := range s.Stretches {
		if t.Before(stretch.To) {
			return stretch, true
		}
	}
	return Stretch{}, false
}

// Next returns the stretch after the one that an instant belongs to; ok is false when there is none.
func (s Share) Next(t time.Time) (stretch Stretch, ok bool) {
	for i, stretch := range s.Stretches {
		if t.Before(stretch.To) {
			if i+1 < len(s.Stretches) {
				return s.Stretches[i+1], true
			}
			break
		}
	}
	return Stretch{}, false
}
