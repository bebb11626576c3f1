// Package say is the one place in which an advice becomes words: the answer of the Run screen, what it is, what to
// do, and what the one key says, each in several lengths. Screens, lines and alarms all ask it.
package say

import (
	"time"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan/share"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// Voice says what is to be done at one instant.
type Voice struct {
	Run    facts.Run
	Advice advice.Advice
	Steps  []checklist.StepState
	Facts  map[string]string        // the night's facts, for the steps' sentences
	Alerts []Alert                  // that are on besides the run, what calls before what warns
	Key    func(name string) string // the key of an action, as the kit names actions
}

// Answer is the one thing that the Run screen is for: a word, or a countdown to an instant.
type Answer struct {
	Word  string    // "" for the countdown
	Until time.Time // of the countdown
	Calls bool      // something is to be done now
}

// Answer returns the answer.
func (v Voice) Answer() Answer {
	a := v.Advice
	calls := a.Level == advice.Calling
	switch a.Do {
	case advice.MoveAway:
		return Answer{Word: "AWAY", Calls: true}
	case advice.StopSubs:
		if a.Why == advice.Limit {
			return Answer{Word: "LIMIT", Calls: true}
		}
		return Answer{Word: "STOP", Calls: calls}
	case advice.HandOver:
		return Answer{Word: "NEXT", Calls: true}
	case advice.SayAngle:
		if v.Run.Behind > 0 {
			return Answer{Word: "CLOCK?", Calls: true}
		}
		return Answer{Word: "ANGLE?", Calls: true}
	case advice.Rewind:
		if calls {
			return Answer{Word: "REWIND", Calls: true}
		}
	case advice.Stow:
		if len(v.Run.Windows) == 0 {
			return Answer{Word: "NONE"}
		}
		return Answer{Word: "DONE"}
	}
	return v.countdown(a.Do == advice.FinishSub)
}

// countdown counts to the end of the run that goes on, or else to the opening of the window.
func (v Voice) countdown(lastSub bool) Answer {
	switch r := v.Run; {
	case v.runs():
		return Answer{Until: r.Call.At, Calls: lastSub}
	case r.Now.Before(r.Window.From) && r.Window.Length() > 0:
		return Answer{Until: r.Window.From}
	}
	return Answer{Word: "OFF", Calls: true}
}

// runs tells that the stage tracks in an open window, with a sub yet to come.
func (v Voice) runs() bool {
	r := v.Run
	return r.Anchor != nil && r.Now.Before(r.Call.At) && (r.Log.Subs != nil || !r.Now.Before(r.Window.From))
}

// turn is the stretch of the target that an advice hands over to.
func (v Voice) turn() (share.Stretch, bool) {
	if turn, ok := v.Run.HandOver(); ok {
		return turn, true
	}
	return v.Run.Following()
}

func (v Voice) at(t time.Time) string   { return words.Minute(t, v.Run.Kit.Site.Zone) }
func (v Voice) from(t time.Time) string { return words.MinuteFrom(t, v.Run.Kit.Site.Zone) }
