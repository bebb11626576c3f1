package ui

import (
	"slices"
	"strings"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
)

// What the screens say, for whoever has none: a status line, a log, a voice. It is the screens' own wording,
// taken from a model that is never shown.

// Spoken is what the screens say at an instant. Where there are several ways to say a thing, the longest is first.
type Spoken struct {
	Mark   []string      // what kind of night it is, if not the real one; empty in a night of one's own
	Answer []string      // with what it counts down to; the shortest is the answer alone
	Digits string        // the answer as it stands in big digits
	ToDo   []string      // what to do next, or when to look again; the next step of the checklist while the screens open there
	StepID string        // of the checklist's next step, "" when none is left
	Step   string        // that step, as a sentence
	Unsaid []facts.Alert // what is on besides: a silent sequence, dew, dawn
	Call   bool          // something is to be done now

	Do    advice.Do
	Why   advice.Why
	Level advice.Level
}

// Speak returns what the screens would say of an instant. Stars fill the sentences of the steps before the first
// run; without them those are said in plain words.
func Speak(c Config, r facts.Run, stars facts.Stars) Spoken {
	m := Model{config: c, keys: keys.New(c.Kit.Keys), tonight: r.Tonight, log: r.Log, now: r.Now, date: r.Night.Date, run: r, stars: stars}
	m.advice = r.Advice()
	m.alerts = r.Alerts(m.advice, framesOf(r))
	m = m.deriveSteps()
	digits, _ := m.answer()
	s := Spoken{Answer: m.spokenAnswer(), Digits: digits, ToDo: m.toDo(), Unsaid: m.unsaid(), Call: calls(m.alerts), Do: m.advice.Do, Why: m.advice.Why, Level: m.advice.Level}
	if mark := m.mark(); mark != "" {
		s.Mark = []string{mark, shortMark(mark)}
	}
	if m.nextStep >= 0 {
		next := m.steps[m.nextStep]
		s.StepID, s.Step = next.ID, strings.TrimSpace(next.Sentence(m.sentences)+" "+m.changed(next))
		if m.screenOfStage() == keys.StepsScreen {
			s.ToDo = []string{s.Step}
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
func calls(alerts []facts.Alert) bool {
	return slices.ContainsFunc(alerts, func(a facts.Alert) bool { return a.Level == advice.Calling })
}

// spokenAnswer joins the answer and its label: digits are said as a length of time, a word stays a word.
func (m Model) spokenAnswer() []string {
	said := m.voice().Answer()
	answer, left := said.Word, said.Until.Sub(m.now)
	counting := answer == ""
	_, unit := countdown(left)
	if counting {
		answer = duration(wholeUnits(left))
	}
	var ways []string
	for _, label := range m.answerLabel() {
		label = strings.TrimPrefix(label, unit+" ")
		joint := ": "
		if counting && strings.HasPrefix(label, "until ") {
			joint = " "
		}
		ways = append(ways, answer+joint+label)
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

// ReplayedNight returns what is said in a replayed night up to an instant: the example's scenario, or what the
// journal has of that night.
func ReplayedNight(c Config, date plan.Date, until time.Time) ([]journal.Event, error) {
	if len(c.Steps.All()) == 0 {
		c.Steps = checklist.Steps()
	}
	return scriptOf(c, date, until)
}
