package ui_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/ui"
	"duskhand/ui/bell"
)

const alarmsKey = "8"

func bells(s *session) int { return strings.Count(s.out.String(), "\a") }

// A call that nobody acts on rings once more after two minutes, and then never again: it stays written. The limit
// behind it is worse, and rings for itself.
func TestAlarmsAreNotRepeatedIntoNumbness(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.wait(11*time.Minute + 30*time.Second)
	assert.Equal(t, 1, bells(s), "five minutes before the call")
	s.wait(5 * time.Minute)
	assert.Equal(t, 2, bells(s), "at the call")
	s.wait(3 * time.Minute)
	assert.Equal(t, 4, bells(s), "a reminder, and the limit")
	s.wait(20 * time.Minute)
	assert.Equal(t, 5, bells(s), "the limit's reminder, and no more")
	s.press(alarmsKey).sees("act now      since 23:3", "at the limit since 23:3", "at the limit: stop, rewind")
}

// The snooze is for what is on: what begins later rings all the same, and what is still on at its end does.
func TestSnoozeKeepsQuietWhatIsOn(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.wait(10 * time.Minute).press("z").sees("no alarm is on")
	s.wait(7 * time.Minute)
	assert.Equal(t, 2, bells(s), "soon, and now")
	s.press("z").sees("1 alarm quiet until 23:41; what begins meanwhile rings")
	s.press(alarmsKey).sees("1 alarm on, 1 quiet until 23:41")
	s.wait(3 * time.Minute)
	assert.Equal(t, 3, bells(s), "the limit was not on then; the reminder of the rewind is kept quiet")
	s.wait(3 * time.Minute)
	assert.Equal(t, 4, bells(s), "the limit's reminder")
	s.sees("2 alarms on, 1 quiet until 23:41")
	s.wait(5 * time.Minute)
	assert.Equal(t, 5, bells(s), "the reminder of what is still so when the snooze ends")
	s.press("z").sees("2 alarms quiet until").press("z").sees("alarms ring again")
}

func TestListOfAlarms(t *testing.T) {
	s := start(t, 120, 40, nil).wait(time.Second).press(alarmsKey)
	s.sees("nothing calls now", "soon to act", "act now", "at the limit", "field turns", "no new sub", "dew", "dawn",
		"30 min before darkness ends", "the terminal's bell")
}

func TestDawnCalls(t *testing.T) {
	s := own(t, 120, 40)
	s.press("space").pass(4*time.Hour + 35*time.Minute)
	s.wait(2*time.Second).press(alarmsKey).sees("dawn         since 03:49", "darkness ends at 04:12")
}

// A message for the desktop is written only where the terminal is known to show it, and holds nothing that
// could end it early.
func TestMessagesOnTheDesktop(t *testing.T) {
	env := func(pairs ...string) func(string) string {
		return func(name string) string {
			for i := 0; i < len(pairs); i += 2 {
				if pairs[i] == name {
					return pairs[i+1]
				}
			}
			return ""
		}
	}
	assert.Equal(t, bell.NoMessages, bell.MessagesOf(env("TERM", "xterm-256color")))
	assert.Equal(t, bell.OSC99, bell.MessagesOf(env("TERM", "xterm-kitty")))
	assert.Equal(t, bell.OSC777, bell.MessagesOf(env("TERM", "foot")))
	assert.Equal(t, bell.OSC9, bell.MessagesOf(env("TERM", "xterm-256color", "TERM_PROGRAM", "WezTerm")))
	assert.Equal(t, bell.NoMessages, bell.MessagesOf(env("TERM", "tmux-256color", "TERM_PROGRAM", "WezTerm", "TMUX", "/tmp/x,1,0")))

	s := start(t, 80, 24, func(c *ui.Config) { c.Notify = bell.OSC777 })
	s.wait(12 * time.Minute)
	assert.Contains(t, s.out.String(), "\a\x1b]777;notify;duskhand;soon to act: in ")
	assert.Equal(t, "\x1b]9;duskhand: a,,b,c\x1b\\", bell.OSC9.Message("a\x1b;b\ac"), "nothing in the text can end it early")
}
