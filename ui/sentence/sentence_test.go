package sentence_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/checklist/rehearsal"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/ui"
	"duskhand/ui/facts"
	"duskhand/ui/sentence"
	"duskhand/ui/spoken"
	"duskhand/ui/testdata/clocks"
)

// night follows the example's operator and gives the moment of any instant.
type night struct {
	t       *testing.T
	config  ui.Config
	date    plan.Date
	script  []journal.Event
	tonight *facts.Tonight
}

func newNight(t *testing.T) *night {
	t.Helper()
	k := kit.Example()
	c := ui.Config{Kit: k, Steps: checklist.Steps(), Clock: clocks.Fixed(local(t, "20:00"))}
	date := plan.DateOf(k.Site.Place, local(t, "20:00"))
	script, err := rehearsal.Script(c.Kit, c.Steps, c.JournalPath, date, local(t, "23:59"))
	require.NoError(t, err)
	return &night{t: t, config: c, date: date, script: script}
}

func local(t *testing.T, clock string) time.Time {
	t.Helper()
	at, err := time.ParseInLocation("2006-01-02 15:04:05", "2026-12-05 "+(clock + ":00")[:8], kit.Example().Site.Zone)
	require.NoError(t, err)
	return at.UTC()
}

// at is the moment of an instant, with what was said by then.
func (n *night) at(clock string) sentence.Moment {
	now := local(n.t, clock)
	log := checklist.Night{}
	for _, e := range n.script {
		if !e.At.After(now) {
			log = log.Next(e)
		}
	}
	n.tonight = facts.For(n.config.Kit, n.date, log, now, n.tonight)
	run := n.tonight.At(now)
	return sentence.Moment{Run: run, Spoken: spoken.Night{Kit: n.config.Kit, Steps: n.config.Steps, Replaying: n.config.Clock.Replaying()}.At(run, facts.Stars{})}
}

func TestACountdownThatGoesOnIsNoChange(t *testing.T) {
	n := newNight(t)
	before := n.at("22:30:00")
	for _, later := range []string{"22:35:10", "22:45:00", "23:20:00"} {
		after := n.at(later)
		assert.NotEqual(t, before.Spoken.Answer, after.Spoken.Answer, "the countdown has gone on")
		assert.Empty(t, sentence.Changes(before, after, nil), later)
	}
}

func TestWhatChangesIsSaidOnce(t *testing.T) {
	n := newNight(t)
	cases := []struct {
		name, from, to string
		says           []string
	}{
		{"the call comes near", "23:24:50", "23:26", []string{"until the rewind, at 23:30.", "Soon: after sub 61 stop guiding and rewind to −16°."}},
		{"the last sub begins", "23:27", "23:29:30", []string{"until the rewind, at 23:30.", "The last sub is being taken."}},
		{"dusk, the window and the Sun, in their order", "19:57", "21:38", []string{"The Sun sets.", "Dusk: astronomical darkness begins.", "NGC 2070 can be used from now on (twilight until now)."}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			before, after := n.at(c.from), n.at(c.to)
			said := strings.Join(sentence.Changes(before, after, nil), "\n")
			place := 0
			for _, words := range c.says {
				found := strings.Index(said[place:], words)
				require.GreaterOrEqual(t, found, 0, "%q in\n%s", words, said)
				place += found
			}
			for _, again := range sentence.Changes(after, after, nil) {
				t.Errorf("said without a change: %s", again)
			}
		})
	}
}

func TestEventsAreToldInTheJournalsWords(t *testing.T) {
	n := newNight(t)
	m := n.at("22:30")
	event := func(kind string, body any) journal.Event {
		raw, err := json.Marshal(body)
		require.NoError(t, err)
		return journal.Event{Kind: kind, Body: raw}
	}
	assert.Equal(t, []string{"Rewound to −16°.", "Air −7.5 °C.", "Target Sh2-155.", "Note: Thin cloud!", "Note: fog.", "Something newer."}, sentence.Changes(m, m, []journal.Event{
		event(checklist.KindRewound, checklist.RewoundBody{ToDeg: -16}),
		event(checklist.KindTemperature, checklist.TemperatureBody{TempC: -7.5}),
		event(checklist.KindTargetChosen, checklist.TargetChosenBody{Name: "Sh2-155"}),
		event(checklist.KindNoted, checklist.NotedBody{Text: "Thin cloud!"}),
		event(checklist.KindNoted, checklist.NotedBody{Text: "fog"}),
		event("something-newer", struct{}{}),
	}))
}

func TestTheOpeningIsWhatTheRunScreenShows(t *testing.T) {
	m := newNight(t).at("23:14")
	assert.Equal(t, []string{"16 min until the rewind, at 23:30.", "Nothing to do. Look again at 23:25."}, sentence.Opening(m))
}

// reads adds readings of the air to what is said in the night.
func (n *night) reads(clock string, celsius, percent float64) {
	at := local(n.t, clock)
	for kind, body := range map[string]any{checklist.KindTemperature: checklist.TemperatureBody{TempC: celsius}, checklist.KindHumidity: checklist.HumidityBody{Percent: percent}} {
		raw, err := json.Marshal(body)
		require.NoError(n.t, err)
		n.script = append(n.script, journal.Event{Ordinal: int64(len(n.script) + 1), At: at, Kind: kind, Body: raw})
	}
}

// What calls besides the run is said once, when it begins; what to do follows it.
func TestDewIsSaid(t *testing.T) {
	n := newNight(t)
	n.reads("23:14:30", 5, 96)
	before, after, later := n.at("23:14"), n.at("23:15"), n.at("23:16")
	said := sentence.Changes(before, after, nil)
	assert.Equal(t, []string{"Dew is near, the air is 0.6 K above its dew point: heat the glass."}, said)
	assert.Empty(t, sentence.Changes(after, later, nil))
	assert.False(t, after.Spoken.Call, "a warning")
}

// No file has come though subs are said to be taken: that is a call.
func TestASilentSequenceIsSaidAndCalls(t *testing.T) {
	n := newNight(t)
	n.config.Kit.Watch.Folders = []string{"/subs"}
	n.script = slices.DeleteFunc(n.script, func(e journal.Event) bool { return e.Kind == checklist.KindSubArrived })
	before, after := n.at("21:38"), n.at("21:45")
	assert.False(t, before.Spoken.Call)
	assert.True(t, after.Spoken.Call)
	said := strings.Join(sentence.Changes(before, after, nil), "|")
	assert.Equal(t, 1, strings.Count(said, "No sub in the"), said)
	assert.Contains(t, after.Spoken.ToDo[0], "has the sequence begun, and does it write to the folder that is watched?")
}
