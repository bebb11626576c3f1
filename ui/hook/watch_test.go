package hook_test

import (
	"encoding/json"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the example's zone, on computers without their own table

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/facts"
	"duskhand/ui/hook"
)

// nightOf is the example night as the screens follow it, instant by instant.
type nightOf struct {
	t       *testing.T
	kit     kit.Kit
	log     checklist.Night
	n       int64
	tonight *facts.Tonight
	before  *facts.Run
	heard   []string
}

func (s *nightOf) at(at time.Time, actions ...checklist.Action) {
	s.t.Helper()
	for _, a := range actions {
		kind, body, err := checklist.Say(s.log, a, time.UTC)
		require.NoError(s.t, err)
		raw, err := json.Marshal(body)
		require.NoError(s.t, err)
		s.n++
		s.log = s.log.Next(journal.Event{Ordinal: s.n, Night: "2026-12-05", At: at, Kind: kind, Body: raw})
	}
	date := plan.Date{Year: 2026, Month: time.December, Day: 5}
	s.tonight = facts.For(s.kit, date, s.log, at, s.tonight)
	now := s.tonight.At(at)
	for _, h := range hook.Between(s.before, now) {
		s.heard = append(s.heard, h.Event)
		assert.Equal(s.t, at, h.At)
		assert.Equal(s.t, "NGC 2070", h.Target)
	}
	s.before = &now
}

func TestTheEventsOfANight(t *testing.T) {
	k := kit.Example()
	k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: time.Minute, Count: 110}}
	s := &nightOf{t: t, kit: k}
	start := time.Date(2026, 12, 5, 11, 10, 0, 0, time.UTC)
	low := -16 * sky.Degree
	s.at(start, checklist.OpenNight{Kit: "kit.toml"})
	s.at(start.Add(time.Second), checklist.TurnOn{Angle: &low})
	assert.Equal(t, []string{kit.RunStarted}, s.heard)
	s.at(start.Add(time.Minute), checklist.StartSubs{})
	call, ok := s.tonight.Call(start.Add(time.Minute))
	require.True(t, ok)
	by := call.By
	s.heard = nil
	for at := by.Add(-20 * time.Minute); at.Before(by.Add(2 * time.Minute)); at = at.Add(5 * time.Second) {
		s.at(at)
	}
	assert.Equal(t, []string{kit.LimitNear, kit.RewindDue}, s.heard, "each once")
	s.heard = nil
	s.at(by.Add(3*time.Minute), checklist.StopSubs{}, checklist.Rewound{To: low})
	assert.Equal(t, []string{kit.Rewound, kit.RunStarted}, s.heard)
	s.heard = nil
	s.at(by.Add(4*time.Minute), checklist.StartSubs{})
	for at := by.Add(4 * time.Minute); at.Before(by.Add(30 * time.Minute)); at = at.Add(10 * time.Second) {
		s.at(at)
	}
	assert.Equal(t, 1, strings.Count(strings.Join(s.heard, " "), kit.TargetDone), "%v", s.heard)
}

func TestAProgramThatIsStartedLateRepeatsNothing(t *testing.T) {
	s := &nightOf{t: t, kit: kit.Example()}
	low := -16 * sky.Degree
	s.at(time.Date(2026, 12, 5, 11, 10, 0, 0, time.UTC), checklist.OpenNight{}, checklist.TurnOn{Angle: &low}, checklist.StartSubs{})
	assert.Empty(t, s.heard)
}
