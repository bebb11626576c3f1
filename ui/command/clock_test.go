package command_test

import (
	"bytes"
	"io"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/ui/command"
	"duskhand/ui/testdata/clocks"
)

// A small computer without a clock chip was started anew, and shows 40 minutes less than before: no command promises
// anything by that.
func TestNothingIsPromisedByAClockThatContradictsTheJournal(t *testing.T) {
	s := inTheDark(t)
	s.boot, s.began = "first", s.now.Add(-time.Hour)
	s.tell("derotator-on", "-16")
	s.tell("subs-started")
	code, _ := s.room(60)
	assert.Equal(t, fits, code)

	s.now = s.now.Add(-40 * time.Minute)
	s.boot, s.began = "second", s.now.Add(-time.Minute)
	const why = "the journal has what was said 40 min later than this computer's clock shows: one of the two is wrong"
	code, answer := s.room(60)
	assert.Equal(t, unknown, code)
	assert.Equal(t, "unknown", answer.Answer)
	assert.Contains(t, *answer.Why, why+". Set this computer's clock; or if it is right, read the derotator's angle and say it.")
	assert.Equal(t, unknown, s.run("", "room", "60"))
	assert.Contains(t, s.err, why)

	const actNow = 3
	assert.Equal(t, actNow, s.run("", "glance", "--once", "--width", "200"))
	assert.Equal(t, "CLOCK?: "+why+" · Set this computer's clock; or if it is right, read the derotator's angle and say it\n", s.out)
	s.run("", "glance", "--once", "--width", "20")
	assert.Equal(t, "CLOCK?\n", s.out)
	assert.Equal(t, command.Done, s.run("", "watch", "--lines"))
	assert.Contains(t, s.out, "CLOCK?: "+why)

	s.tell("note", "cold")
	assert.Contains(t, s.err, "noted; but the journal has what was said 39 min later than")
	s.now = s.now.Add(50 * time.Minute) // the clock has caught up, and is as wrong as before
	code, _ = s.room(60)
	assert.Equal(t, unknown, code)
	s.tell("read", "-9")
	assert.Empty(t, s.err)
	code, _ = s.room(60)
	assert.Equal(t, fits, code)
}

// A clock that was put right while nothing ran: the next word from a script notes it first.
func TestTellNotesAClockThatWasSetBeforeIt(t *testing.T) {
	s := inTheDark(t)
	s.boot, s.began = "one start", s.now.Add(-time.Hour)
	s.tell("derotator-on", "-16")
	code, before := s.room(60)
	assert.Equal(t, fits, code)
	s.now, s.began = s.now.Add(40*time.Minute), s.began.Add(40*time.Minute)
	s.tell("note", "the clock was 40 minutes behind")
	assert.Equal(t, []string{"night-opened", "derotator-on", "clock-jumped", "noted"}, s.kinds())
	_, after := s.room(60)
	assert.InDelta(t, *before.Left, *after.Left, 600, "a minute has passed, and the sky turns faster 40 minutes later; unnoted it would be 2400 s less")
}

// A clock that is put back while watch follows does not silence it until the clock has caught up.
func TestWatchGoesOnWhenTheClockIsPutBack(t *testing.T) {
	s := inTheDark(t)
	s.tell("derotator-on", "-16")
	in, leave := io.Pipe()
	looked := 0
	led := func() time.Time {
		looked++
		now := s.now.Add(time.Duration(looked) * time.Second)
		if looked >= 8 {
			now = now.Add(-40 * time.Minute)
		}
		if looked == 16 {
			assert.NoError(t, leave.Close())
		}
		return now
	}
	var out, messages bytes.Buffer
	p := command.Program{Streams: command.Streams{In: in, Out: &out, Err: &messages}, Env: func(name string) string { return s.env[name] }, Clock: clocks.Led(led)}
	assert.Equal(t, command.Done, p.Run([]string{"watch", "--lines"}))
	assert.Empty(t, messages.String())
	assert.Contains(t, out.String(), "CLOCK?: the journal has what was said")
}
