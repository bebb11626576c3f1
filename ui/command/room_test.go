package command_test

import (
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/ui/command"
	"duskhand/ui/facts"
)

// The exit codes of room, as its help promises them.
const fits, tooLate, unknown = 0, 1, 2

type roomAnswer struct {
	Answer   string
	Left     *int64  `json:"seconds_left"`
	Longest  *int64  `json:"longest_s"`
	By       *string `json:"by"`
	Before   *string `json:"before"`
	RewindBy *string `json:"rewind_by"`
	Why      *string `json:"why"`
}

func (s *shell) room(seconds any) (code int, answer roomAnswer) {
	s.t.Helper()
	code = s.run("", "room", fmt.Sprint(seconds), "--json")
	require.NoError(s.t, json.Unmarshal([]byte(s.out), &answer), s.out)
	return code, answer
}

func TestRoomAgreesWithTheScreens(t *testing.T) {
	s := inTheDark(t)
	s.tell("derotator-on", "-16")
	s.tell("subs-started")
	on := s.now.Add(-time.Minute)
	k, angle := kit.Example(), -16.0
	log := checklist.Fold(nil).Next(event(t, 1, checklist.KindDerotatorOn, on, checklist.DerotatorOnBody{AngleDeg: &angle}))
	by := callBy(facts.For(k, plan.DateOf(k.Site.Place, s.now), log, s.now, nil), s.now)

	for _, now := range []time.Time{s.now, s.now.Add(20 * time.Minute), by.Add(-90 * time.Second)} {
		s.now = now
		left := int64(by.Sub(s.now).Seconds())
		code, answer := s.room(60)
		assert.Equal(t, fits, code)
		assert.Equal(t, "yes", answer.Answer)
		assert.Equal(t, left, *answer.Left)
		assert.Equal(t, left-4, *answer.Longest, "the kit's overhead is 4 s")
		assert.Equal(t, by.Truncate(time.Second).Format(time.RFC3339), *answer.RewindBy)
		assert.Equal(t, "rewind", *answer.Before)
		code, _ = s.room(*answer.Longest)
		assert.Equal(t, fits, code, "to the second")
		code, answer = s.room(*answer.Longest + 1)
		assert.Equal(t, tooLate, code)
		assert.Equal(t, "no", answer.Answer)
	}
	s.now = by.Add(10 * time.Second)
	code, answer := s.room(0)
	assert.Equal(t, tooLate, code)
	assert.Negative(t, *answer.Left)
	assert.Zero(t, *answer.Longest)
	assert.Equal(t, tooLate, s.run("", "room", "60"))
	assert.Contains(t, s.out, "no: -1")
}

func TestRoomInWords(t *testing.T) {
	s := inTheDark(t)
	s.tell("derotator-on", "-16")
	assert.Equal(t, fits, s.run("", "room", "300"))
	assert.Regexp(t, `^yes: \d+ s left, room for a sub of \d+ s; rewind by \d\d:\d\d:\d\d ACDT \(2026-12-05T1\d:\d\d:\d\dZ\)\n$`, s.out)
	assert.Empty(t, s.err)
}

func TestRoomAfterTheLastWindow(t *testing.T) {
	s := inTheDark(t)
	s.now = time.Date(2026, 12, 5, 17, 0, 0, 0, time.UTC) // the window closes at 17:42
	s.tell("derotator-on", "-16")
	code, answer := s.room(60)
	assert.Equal(t, fits, code)
	assert.Equal(t, "window", *answer.Before)
	assert.Nil(t, answer.RewindBy)
	s.now = time.Date(2026, 12, 5, 17, 50, 0, 0, time.UTC)
	code, answer = s.room(60)
	assert.Equal(t, tooLate, code)
	assert.Equal(t, "window", *answer.Before)
	assert.Equal(t, tooLate, s.run("", "room", "60"))
	assert.Contains(t, s.out, "no rewind before the window closes at 04:12:05 ACDT (2026-12-05T17:4")
}

func TestRoomThatNobodyKnows(t *testing.T) {
	check := func(s *shell, why string) {
		t.Helper()
		code, answer := s.room(60)
		assert.Equal(t, unknown, code)
		assert.Equal(t, "unknown", answer.Answer)
		assert.Contains(t, *answer.Why, why)
		assert.Nil(t, answer.Left)
		assert.Equal(t, unknown, s.run("", "room", "60"))
		assert.Empty(t, s.out)
		assert.Contains(t, s.err, why)
	}
	check(newShell(t), "there is no kit file")
	s := inTheDark(t)
	check(s, "there is no journal yet at "+s.journal())
	s.tell("note", "here")
	check(s, "the derotator is off")
	s.tell("derotator-on")
	check(s, "nobody knows the derotator's angle")
	s.tell("read", "3")
	code, _ := s.room(60)
	assert.Equal(t, fits, code)
	s.tell("derotator-off")
	check(s, "the derotator is off")
	s.now = s.now.Add(24 * time.Hour)
	check(s, "the journal has nothing of tonight, 2026-12-06")
	s.ownKit("stops = \"anywhere\"", "stops = \"middle\"")
	check(s, `derotator.stops = "middle" is unknown`)
}

func TestRoomOfNoLengthIsWrongUse(t *testing.T) {
	s := inTheDark(t)
	for _, args := range [][]string{{"room"}, {"room", "5 min"}, {"room", "NaN"}, {"room", "1e9"}, {"room", "60", "60"}} {
		assert.Equal(t, command.WrongUse, s.run("", args...), args)
		assert.Contains(t, s.err, "seconds")
	}
}

// callBy is by when the last sub must be over, as the screens have it.
func callBy(t *facts.Tonight, now time.Time) time.Time {
	call, _ := t.Call(now)
	return call.By
}
