package advice_test

import (
	"encoding/json"
	"fmt"
	"testing"
	"time"
	_ "time/tzdata"

	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/plan/kit"
)

// night is a night to which things are said, as keys and scripts say them.
type night struct {
	t       require.TestingT
	kit     kit.Kit
	steps   checklist.List
	date    plan.Date
	log     checklist.Night
	ordinal int64
	tonight *advice.Tonight
	derived time.Time
}

// at derives the moment.
func (n *night) at(now time.Time) advice.Moment {
	if n.tonight == nil || now.Sub(n.derived) >= time.Minute {
		n.tonight, n.derived = advice.For(n.kit, n.date, n.log, now, n.tonight), now
	}
	return n.tonight.At(now)
}

// say has an action judged and folded in.
func (n *night) say(now time.Time, a checklist.Action) {
	m := n.at(now)
	if choice, ok := m.ChoiceBefore(a); ok {
		n.write(now, choice)
	}
	n.write(now, n.at(now).Completed(a))
}

func (n *night) write(now time.Time, a checklist.Action) {
	kind, body, err := n.steps.Say(n.log, a, n.kit.Site.Zone)
	require.NoError(n.t, err, "%T at %s", a, now.In(n.kit.Site.Zone).Format("15:04:05"))
	raw, err := json.Marshal(body)
	require.NoError(n.t, err)
	n.ordinal++
	n.log = n.log.Next(journal.Event{Ordinal: n.ordinal, Night: n.date.String(), At: now, Kind: kind, Body: raw})
	n.derived = time.Time{}
}

func TestWalk(t *testing.T) {
	k := kit.Example()
	n := &night{t: t, kit: k, steps: checklist.Steps(), date: plan.Date{Year: 2026, Month: time.December, Day: 5}}
	now := time.Date(2026, 12, 5, 7, 0, 0, 0, time.UTC)
	last := ""
	for ; now.Before(time.Date(2026, 12, 5, 20, 0, 0, 0, time.UTC)); now = now.Add(10 * time.Second) {
		a := advice.Decide(n.at(now), n.steps)
		line := fmt.Sprintf("%-12s %-14s step=%s target=%s", a.Do, a.Why, a.Step, a.Target)
		if a.Angle != nil {
			line += fmt.Sprintf(" %.1f", a.Angle.Degrees())
		}
		if a.Offer != nil {
			line += fmt.Sprintf(" offer %T", a.Offer)
		}
		if line != last {
			from, by := "", ""
			if a.From != nil {
				from = a.From.In(k.Site.Zone).Format("15:04:05")
			}
			if a.By != nil {
				by = a.By.In(k.Site.Zone).Format("15:04:05")
			}
			t.Logf("%s %s from %s by %s level %d also %v", now.In(k.Site.Zone).Format("15:04:05"), line, from, by, a.Level, a.Also)
			last = line
		}
		if a.Offer != nil {
			n.say(now, a.Offer)
		}
	}
}
