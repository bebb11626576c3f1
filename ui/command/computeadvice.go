package command

import (
	"encoding/json"
	"fmt"
	"math"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/journal"
	"duskhand/checklist/told"
	"duskhand/plan"
	"duskhand/plan/ask"
	"duskhand/plan/kit"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
	"duskhand/ui/say"
	"duskhand/ui/spoken"
)

// adviceQuestion asks what is to be done in a night of a given kit, after what has been said in it.
type adviceQuestion struct {
	ask.Header
	KitTOML *string     `json:"kit_toml"`
	Events  []saidEvent `json:"events"`
	UTC     *time.Time  `json:"utc"`
}

// saidEvent is something said, in the words of tell.
type saidEvent struct {
	UTC time.Time `json:"utc"`
	Say string    `json:"say"`
}

// adviceAnswer is an advice, its instants to the second and its angles to the tenth.
type adviceAnswer struct {
	Do        string   `json:"do" doc:"what is to be done, a kind"`
	Why       string   `json:"why" doc:"the reason, a kind"`
	From      *string  `json:"from" doc:"when it can begin, null if at once"`
	By        *string  `json:"by" doc:"by when it must be over"`
	AngleDeg  *float64 `json:"angle_deg" doc:"of the derotator"`
	Side      *string  `json:"side" doc:"min or max"`
	Target    *string  `json:"target" doc:""`
	Filter    *string  `json:"filter" doc:""`
	Star      *string  `json:"star" doc:""`
	Step      *string  `json:"step" doc:"the checklist step it is about"`
	GainsS    *float64 `json:"gains_s" doc:"exposure that it buys"`
	Offer     *string  `json:"offer" doc:"the event that the one key would write, null when the right thing is to wait"`
	Then      *string  `json:"then" doc:"the kind after it"`
	Also      []string `json:"also" doc:"kinds that hold too"`
	PromisedS float64  `json:"promised_s" doc:"exposure still to come if it is followed"`
	Text      string   `json:"text" doc:"what the Run screen says"`
}

// Answer folds what was said and decides.
//
// Error: the kit's faults, or the first event that makes no sense, by its index.
func (q *adviceQuestion) Answer() (any, error) {
	if q.KitTOML == nil || q.UTC == nil {
		return nil, fmt.Errorf("\"kit_toml\" and \"utc\" are needed; give the text of a kit file, and the instant as RFC 3339 in UTC")
	}
	k, err := kit.Read([]byte(*q.KitTOML), "kit_toml", keys.Check)
	if err == nil {
		err = withinYears("\"utc\"", q.UTC.Year())
	}
	if err != nil {
		return nil, err
	}
	n := toldNight{kit: k, date: plan.DateOf(k.Site.Place, *q.UTC), steps: checklist.Steps().For(k)}
	for i, e := range q.Events {
		if err := n.hear(e); err != nil {
			return nil, fmt.Errorf("events[%d]: %w", i, err)
		}
		if e.UTC.After(*q.UTC) {
			return nil, fmt.Errorf("events[%d]: it is at %s, after the instant asked for; give events up to then", i, e.UTC.Format(time.RFC3339))
		}
	}
	return n.answer(*q.UTC), nil
}

// toldNight is a night to which things are said in words, and that no journal keeps.
type toldNight struct {
	kit     kit.Kit
	date    plan.Date
	steps   checklist.List
	log     checklist.Night
	ordinal int64
	latest  time.Time
	tonight *facts.Tonight
}

func (n *toldNight) at(now time.Time) facts.Run {
	n.tonight = facts.For(n.kit, n.date, n.log, now, n.tonight).Using(n.steps)
	return n.tonight.At(now)
}

func (n *toldNight) hear(e saidEvent) error {
	if date := plan.DateOf(n.kit.Site.Place, e.UTC); date != n.date {
		return fmt.Errorf("it is of the night of %s, and the instant asked for of that of %s", date, n.date)
	}
	if e.UTC.Before(n.latest) {
		return fmt.Errorf("it is before the event before it; give them oldest first")
	}
	n.latest = e.UTC
	action, err := told.Line(n.kit, e.Say)
	if err != nil {
		return err
	}
	return n.say(e.UTC, action)
}

// say takes an action as the screens do: a choice of target that it implies first, and completed by what is known.
func (n *toldNight) say(now time.Time, a checklist.Action) error {
	run := n.at(now)
	if choice, ok := run.ChoiceBefore(a); ok {
		if err := n.write(now, choice); err != nil {
			return err
		}
	}
	return n.write(now, run.Completed(a))
}

func (n *toldNight) write(now time.Time, a checklist.Action) error {
	kind, body, err := n.steps.Say(n.log, a, n.kit.Site.Zone)
	if err != nil {
		return err
	}
	raw, err := json.Marshal(body)
	if err != nil {
		return err
	}
	n.ordinal++
	n.log = n.log.Next(journal.Event{Ordinal: n.ordinal, Night: n.date.String(), At: now, Written: now, Kind: kind, Body: raw})
	return nil
}

func (n *toldNight) answer(now time.Time) adviceAnswer {
	run := n.at(now)
	a := run.Advice()
	stars := run.Tonight.StarsAt(now)
	words := spoken.Night{Kit: n.kit, Steps: n.steps}.At(run, stars)
	answer := adviceAnswer{Do: a.Do.String(), Why: a.Why.String(), From: second(a.From), By: second(a.By), Also: []string{},
		Target: textOrNull(a.Target), Filter: textOrNull(a.Filter), Step: textOrNull(a.Step), PromisedS: math.Round(run.SubsLeft().Seconds()), Text: words.ToDo[0]}
	answer.Star = n.starOf(a.Step, say.Known(run, stars))
	if a.Angle != nil {
		answer.AngleDeg = pointer(math.Round(10*a.Angle.Degrees()) / 10)
	}
	if a.Side != plan.NoLimit {
		answer.Side = pointer(a.Side.String())
	}
	if a.Gains > 0 {
		answer.GainsS = pointer(math.Round(a.Gains.Seconds()))
	}
	for _, also := range a.Also {
		answer.Also = append(answer.Also, also.String())
	}
	if a.Offer != nil {
		if said, ok := told.Words(a.Offer); ok {
			answer.Offer = &said
		}
		answer.Then = n.then(now, a)
	}
	return answer
}

// starOf is the star that a step is about, by the facts of the night that it names; nil if it is about none.
func (n *toldNight) starOf(id string, facts map[string]string) *string {
	step, ok := n.steps.Step(id)
	if !ok {
		return nil
	}
	for _, fact := range []string{"star_1", "star_2", "check_star", "focus_star"} {
		if step.Names(fact) {
			return textOrNull(facts[fact])
		}
	}
	return nil
}

// then is what would be advised if the offer were said at once; nil if it can't be said.
func (n *toldNight) then(now time.Time, a advice.Advice) *string {
	after := *n
	if after.say(now, a.Offer) != nil {
		return nil
	}
	return pointer(after.at(now).Advice().Do.String())
}

// second gives an instant to the second.
func second(t *time.Time) *string {
	if t == nil {
		return nil
	}
	return pointer(t.UTC().Round(time.Second).Format(time.RFC3339))
}
