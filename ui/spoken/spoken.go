// Package spoken is what the screens say, for whoever has none: a status line, a log, a voice. It is the screens' own
// wording.
package spoken

import (
	"slices"
	"strings"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan/kit"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
	"duskhand/ui/say"
	"duskhand/ui/screens"
	"duskhand/ui/screens/run"
)

// Words are what the screens say at an instant. Where there are several ways to say a thing, the longest is first.
type Words struct {
	Mark   []string    // what kind of night it is, if not the real one; empty in a night of one's own
	Answer []string    // with what it counts down to; the shortest is the answer alone
	Digits string      // the answer as it stands in big digits
	ToDo   []string    // what to do next, or when to look again; the next step of the checklist while the screens open there
	About  say.About   // what ToDo is about
	StepID string      // of the checklist's next step, "" when none is left
	Step   string      // that step, as a sentence
	Unsaid []say.Alert // what is on besides: a silent sequence, dew, dawn
	Call   bool        // something is to be done now

	Do    advice.Do
	Why   advice.Why
	Level advice.Level
}

// Night is the night that is told: its kit, its steps (the program's own if there are none), and whether it is replayed.
type Night struct {
	Kit       kit.Kit
	Steps     checklist.List
	Replaying bool
}

// At returns what the screens would say of an instant. Stars fill the sentences of the steps before the first
// run; without them those are said in plain words.
func (n Night) At(r facts.Run, stars facts.Stars) Words {
	now := screens.Status{Kit: n.Kit, Keys: keys.New(n.Kit.Keys), Now: r.Now, Date: r.Night.Date, Log: r.Log,
		Tonight: r.Tonight, Run: r, Stars: stars, Advice: r.Advice(), List: screens.List{Steps: n.Steps}}
	now.Alerts = say.Alerts(r, now.Advice, framesOf(r))
	now = now.WithList()
	s := Words{Answer: spokenAnswer(now), Digits: run.Answer(now), ToDo: now.Voice().ToDo(), About: now.Voice().About(),
		Unsaid: now.Unsaid(), Call: calls(now.Alerts),
		Do: now.Advice.Do, Why: now.Advice.Why, Level: now.Advice.Level}
	if mark := screens.MarkOf(n.Kit.Example, n.Replaying, now.Name(), "", false); mark != "" {
		s.Mark = []string{mark, screens.ShortMark(mark)}
	}
	if now.List.Next >= 0 {
		next := now.List.States[now.List.Next]
		s.StepID, s.Step = next.ID, strings.TrimSpace(next.Sentence(now.List.Facts)+" "+now.ChangedPair(next))
		if now.Opening() == keys.StepsScreen {
			s.ToDo, s.About = []string{s.Step}, say.About{Step: s.StepID}
		}
	}
	return s
}

// framesOf is what the frames say that the journal has, while they matter: who has no screen watches no folder.
func framesOf(r facts.Run) facts.Subs {
	if r.Log.Subs == nil {
		return facts.Subs{}
	}
	return r.SubsAt(nil, false)
}

// calls tells that something is to be done now.
func calls(alerts []say.Alert) bool {
	return slices.ContainsFunc(alerts, func(a say.Alert) bool { return a.Level == advice.Calling })
}

// spokenAnswer joins the answer and its label: digits are said as a length of time, a word stays a word.
func spokenAnswer(now screens.Status) []string {
	said := now.Voice().Answer()
	answer, left := said.Word, said.Until.Sub(now.Now)
	counting := answer == ""
	if counting {
		answer = words.Lasting(wholeUnits(left))
	}
	var ways []string
	for _, label := range now.Voice().Labels() {
		joint := ": "
		if counting && label.Until {
			joint = " "
		}
		ways = append(ways, answer+joint+label.Words)
	}
	return append(ways, answer)
}

// wholeUnits rounds a time left down to what is said of it, as the digits do: nothing is promised that is not there.
func wholeUnits(left time.Duration) time.Duration {
	left = max(0, left)
	if left < 100*time.Second {
		return left.Truncate(time.Second)
	}
	return left.Truncate(time.Minute)
}
