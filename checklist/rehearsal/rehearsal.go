// Package rehearsal has what is said in nights that are not lived: the example's scenario, and what a journal has of a
// night that is replayed.
package rehearsal

import (
	"encoding/json"
	"math"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/worth"
)

// rehearsal plays an operator who follows the checklist and the plan of the kit's first target until an
// instant, and then hands over: the example's scenario. Times and angles are the plan's.
type rehearsal struct {
	kit    kit.Kit
	steps  checklist.List
	until  time.Time
	log    checklist.Night
	events []journal.Event
	err    error
}

// The pace of the scenario: set-up begins so long before the first run, a step takes so long, and between
// runs so long.
const (
	setUpBefore = 80 * time.Minute
	stepTakes   = 2 * time.Minute
	loopTakes   = 5 * time.Second
	readsEach   = 40 * time.Minute // the thermometer
	coolsPerH   = 0.9              // K, the air of the scenario
)

// Example returns what is said in the example night until an instant.
func Example(k kit.Kit, steps checklist.List, date plan.Date, until time.Time) ([]journal.Event, error) {
	night := plan.NewNight(k, date)
	course := night.Course(k.Targets[0], k.Axis)
	planned := course.Schedule(plan.Start{At: night.Span.From}, worth.Sequence(night, course.Target))
	r := rehearsal{kit: k, steps: steps, until: until}
	for i, run := range planned.Runs {
		begins := run.From.Add(-setUpBefore)
		if i > 0 {
			begins = planned.Runs[i-1].To
		}
		r.upTo(begins, run)
		r.say(run.From.Add(k.Subs.Settle), checklist.StartSubs{Order: plan.Schedule{Runs: planned.Runs[i:], After: planned.After}.Order()})
		for at := run.Subs[0].Over; r.next() != "" && r.next() != "watch" && !at.After(until); at = at.Add(loopTakes) {
			r.say(at, checklist.DoStep{Step: r.next()})
		}
		for i, sub := range run.Subs {
			r.say(sub.Over, checklist.SubArrived{Body: InventedSub(k, len(r.log.Arrived), sub,
				k.Targets[0].Name, i+1)})
			r.readAir(sub.Over)
		}
		r.say(run.To, checklist.StopSubs{})
	}
	return r.events, r.err
}

// upTo does what the checklist wants before the subs of a run.
func (r *rehearsal) upTo(at time.Time, run plan.Run) {
	takes := stepTakes
	if len(r.log.Runs) > 0 {
		takes = loopTakes
	}
	for id := r.next(); r.err == nil && id != "" && id != "start-subs" && !at.After(r.until); id = r.next() {
		switch id {
		case "choose-target":
			target := r.kit.Targets[0]
			r.say(at, checklist.ChooseTarget{Target: checklist.Target{Name: target.Name, Star: target.Star}})
		case "focus-told":
			temperature := r.kit.Site.TemperatureC
			r.say(at, checklist.FocusNow{TempC: &temperature})
		case "first-rewind":
			r.say(at, checklist.Rewound{To: run.StartAngle})
		case "rewind-again":
			at = run.From
			r.say(at, checklist.Rewound{To: run.StartAngle})
		case "derotator-on":
			at = run.From
			takes = loopTakes
			r.say(at, checklist.TurnOn{})
		default:
			r.say(at, checklist.DoStep{Step: id})
		}
		at = at.Add(takes)
		if last := run.From.Add(-loopTakes); takes == stepTakes && at.After(last) {
			at = last
		}
	}
}

// readAir reads the thermometer when the last reading is old.
func (r *rehearsal) readAir(at time.Time) {
	readings := r.log.Temperatures
	if len(readings) == 0 || at.Sub(readings[len(readings)-1].At) < readsEach {
		return
	}
	since := at.Sub(readings[0].At).Hours()
	r.say(at, checklist.ReadTemperature{TempC: math.Round(10*(readings[0].C-coolsPerH*since)) / 10})
}

// next is the id of the step that the checklist wants next, "" if none.
func (r *rehearsal) next() string {
	step, ok := r.steps.Next(r.log)
	if !ok || r.err != nil {
		return ""
	}
	return step.ID
}

func (r *rehearsal) say(at time.Time, a checklist.Action) {
	if r.err != nil || at.After(r.until) {
		return
	}
	kind, body, err := r.steps.Say(r.log, a, r.kit.Site.Zone)
	if err != nil {
		r.err = err
		return
	}
	raw, err := json.Marshal(body)
	if err != nil {
		r.err = err
		return
	}
	e := journal.Event{Ordinal: int64(len(r.events) + 1), At: at, Kind: kind, Body: raw}
	r.events, r.log = append(r.events, e), r.log.Next(e)
}
