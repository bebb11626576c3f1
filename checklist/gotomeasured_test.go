package checklist_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/sky"
)

func TestWhereAGotoEndedIsKeptForItsTargetAndUndone(t *testing.T) {
	first, second := checklist.Target{Name: "NGC 2070"}, checklist.Target{Name: "NGC 1365"}
	landed := checklist.MeasureGoto{Target: "NGC 2070", Off: 12 * sky.Arcminute, Azimuth: -9 * sky.Arcminute, Altitude: 8 * sky.Arcminute, Light: "/subs/a.fits"}
	s := begin(t).say(0, checklist.ChooseTarget{Target: first})
	_, ok := s.night.Landed()
	assert.False(t, ok)
	s.say(3, landed)
	got, ok := s.night.Landed()
	require.True(t, ok)
	assert.InDelta(t, 12, got.Off.Arcminutes(), 1e-9)
	assert.InDelta(t, -9, got.Azimuth.Arcminutes(), 1e-9)
	assert.Equal(t, "/subs/a.fits", got.Light)
	assert.Equal(t, minute(3), got.At)
	assert.Equal(t, "undo: go-to NGC 2070: 12.0′ off, 22:03", s.night.UndoWords(adelaide))

	s.say(4, checklist.Undo{})
	_, ok = s.night.Landed()
	assert.False(t, ok, "undone")
	s.say(5, checklist.Redo{}).say(6, checklist.ChooseTarget{Target: second})
	_, ok = s.night.Landed()
	assert.False(t, ok, "that was the other target's")
	s.say(7, checklist.ChooseTarget{Target: first})
	_, ok = s.night.Landed()
	assert.False(t, ok, "it was sent there anew")
	assert.Len(t, s.night.Landings, 1, "the record has it all the same")

	s.say(8, landed)
	_, ok = s.night.Landed()
	assert.True(t, ok)
	s.say(8, checklist.TurnOn{}).say(9, checklist.StartSubs{}).say(10, checklist.ChooseTarget{Target: first})
	_, ok = s.night.Landed()
	assert.True(t, ok, "nobody sends a telescope anywhere while it takes subs")
	s.say(11, checklist.StopSubs{}).say(12, checklist.ChooseTarget{Target: first})
	_, ok = s.night.Landed()
	assert.False(t, ok, "chosen anew, it was sent there anew")
	since, _ := s.night.TargetSince()
	assert.Equal(t, minute(12), since)
	s.refuses(checklist.MeasureGoto{Off: 1}, "the go-to that was measured names no target; give the one that the telescope was sent to")
}
