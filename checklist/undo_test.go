package checklist_test

import (
	"encoding/json"
	"testing"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestUndoAndRedoChains(t *testing.T) {
	s := begin(t).say(0, checklist.OpenNight{Kit: "kit.toml"}).say(1, checklist.TurnOn{Angle: deg(-16)}).
		say(71, checklist.Rewound{From: deg(10), To: *deg(-16)})
	rewound, turnedOn := s.night, checklist.Fold(s.events[:2])
	assert.Equal(t, "undo: rewound to −16°, 23:11", rewound.UndoWords(adelaide)) // 11:30 UTC + 71 min + 10:30
	same := func(want checklist.Night, what string) {
		t.Helper()
		assert.Equal(t, want.Runs, s.night.Runs, what)
		assert.Equal(t, want.Anchor, s.night.Anchor, what)
		assert.Equal(t, want.UndoWords(adelaide), s.night.UndoWords(adelaide), what)
	}
	s.say(72, checklist.Undo{})
	same(turnedOn, "undone")
	s.say(73, checklist.Undo{})
	assert.False(t, s.night.DerotatorOn)
	assert.Nil(t, s.night.Undoable, "that the night was opened is not undone")
	s.refuses(checklist.Undo{}, "there is nothing to undo")
	s.say(74, checklist.Redo{})
	same(turnedOn, "redone")
	s.say(75, checklist.Redo{})
	same(rewound, "both redone")
	s.refuses(checklist.Redo{}, "there is nothing to redo: the last thing said was not an undo")
	s.say(76, checklist.Undo{})
	same(turnedOn, "undone after a redo")
	s.say(77, checklist.WriteNote{Text: "x"})
	s.refuses(checklist.Redo{}, "there is nothing to redo: the last thing said was not an undo")
	assert.Equal(t, checklist.Fold(s.events), s.night)
}

func TestAnUndoOfWhatComesLaterOrOfItselfDoesNothing(t *testing.T) {
	s := begin(t).say(0, checklist.TurnOn{Angle: deg(0)}).
		event(minute(1), checklist.KindUndone, checklist.UndoneBody{Ordinal: 2}).
		event(minute(2), checklist.KindUndone, checklist.UndoneBody{Ordinal: 4}).
		say(3, checklist.WriteNote{Text: "stays"})
	assert.True(t, s.night.DerotatorOn)
	assert.Len(t, s.night.Notes, 1)
	assert.Nil(t, s.night.Redoable)
}

func TestAClockThatJumpsKeepsDurations(t *testing.T) {
	for name, jump := range map[string]time.Duration{"back": -2 * time.Hour, "forward": 25 * time.Hour} {
		t.Run(name, func(t *testing.T) {
			s := begin(t).say(0, checklist.TurnOn{Angle: deg(-16)}).say(1, checklist.StartSubs{}).say(31, checklist.StopSubs{}).
				say(40, checklist.Rewound{To: *deg(-16)}).say(41, checklist.StartSubs{})
			now := minute(60).Add(jump)
			s.say(60, checklist.NoticeJump{From: minute(60), To: now})
			kind, body, err := checklist.Say(s.night, checklist.TurnOff{}, adelaide)
			require.NoError(t, err)
			s.event(now.Add(5*time.Minute), kind, body)
			require.Len(t, s.night.Runs, 2)
			assert.Equal(t, 40*time.Minute, s.night.Runs[0].Lasted(now))
			assert.Equal(t, 30*time.Minute, s.night.Runs[0].Exposing())
			assert.Equal(t, 25*time.Minute, s.night.Runs[1].Lasted(now)) // 40 to 65
			assert.Equal(t, 24*time.Minute, s.night.Runs[1].Exposing())  // 41 to 65
			assert.Equal(t, minute(40).Add(jump), s.night.Runs[1].Start) // as the clock goes now
			assert.Equal(t, minute(40).Add(jump), s.night.Runs[0].End)
		})
	}
}

func TestAClockThatGoesBackUnnoticedGivesNoNegativeDuration(t *testing.T) {
	n := begin(t).say(60, checklist.TurnOn{Angle: deg(0)}).say(20, checklist.Rewound{To: *deg(0)}).say(30, checklist.TurnOff{}).night
	for _, run := range n.Runs {
		assert.GreaterOrEqual(t, run.Lasted(minute(0)), time.Duration(0))
	}
	assert.Equal(t, 30*time.Minute, n.Behind)
}

func TestSomethingSaidLateCountsAsOfWhenItHappened(t *testing.T) {
	n := begin(t).say(0, checklist.TurnOn{Angle: deg(-16)}).say(50, checklist.WriteNote{Text: "cold"}).
		say(47, checklist.Rewound{To: *deg(-16)}).night // said at 51, done at 47
	assert.Equal(t, minute(47), n.Anchor.At)
	assert.Zero(t, n.Behind)
}

func TestCountingLeavesOutWhatWasUndone(t *testing.T) {
	event := func(ordinal int64, kind, body string) journal.Event {
		return journal.Event{Ordinal: ordinal, Night: "2026-12-05", Kind: kind, Body: json.RawMessage(body)}
	}
	events := []journal.Event{
		event(1, checklist.KindNoted, `{"text":"stays"}`),
		event(2, checklist.KindNoted, `{"text":"undone"}`),
		event(3, checklist.KindUndone, `{"ordinal":2}`),
		event(4, checklist.KindNoted, `{"text":"undone and back"}`),
		event(5, checklist.KindUndone, `{"ordinal":4}`),
		event(6, checklist.KindUndone, `{"ordinal":5}`),
	}
	var ordinals []int64
	for _, e := range checklist.Counting(events) {
		ordinals = append(ordinals, e.Ordinal)
	}
	require.Equal(t, []int64{1, 4}, ordinals)
}
