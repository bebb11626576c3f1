package command_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/command"
	"duskhand/ui/draw"
)

// The exit codes of glance --once, as its help promises them.
const actNow, noNight = 3, 4

func TestGlanceFollowsTheNight(t *testing.T) {
	s := inTheDark(t)
	assert.Equal(t, noNight, s.run("", "glance", "--once"))
	assert.Equal(t, "no night open\n", s.out, "there is no journal yet")

	s.tell("derotator-on", "-16")
	assert.Equal(t, command.Done, s.run("", "glance", "--once"))
	assert.Contains(t, s.out, "until the rewind, at 2")
	s.tell("subs-started")
	assert.Equal(t, command.Done, s.run("", "glance", "--once"))
	assert.Regexp(t, `^1 h \d+ min until the rewind, at 2\d:\d\d · Nothing to do\. Look again at 2\d:\d\d\n$`, s.out)
	assert.Empty(t, s.err)

	s.now = s.now.Add(2 * time.Hour) // past the call, and past the limit
	assert.Equal(t, actNow, s.run("", "glance", "--once"))
	assert.Regexp(t, `^LIMIT: `, s.out)

	s.now = s.now.Add(24 * time.Hour)
	assert.Equal(t, noNight, s.run("", "glance", "--once"), "another night")
}

// What it says is what room says: both stand on the same call.
func TestGlanceAgreesWithRoom(t *testing.T) {
	s := inTheDark(t)
	s.tell("derotator-on", "-16")
	_, answer := s.room(60)
	left := time.Duration(*answer.Left) * time.Second
	s.run("", "glance", "--once", "--width", "6", "--ascii")
	// Without subs the answer counts to when the next sub would no longer be over in time; the overhead and exposure
	// of a sub, 124 s at most in the example, stand between the two.
	var hours, minutes int
	_, err := fmt.Sscanf(strings.TrimSpace(s.out), "%dh%d", &hours, &minutes)
	require.NoError(t, err, s.out)
	said := time.Duration(hours)*time.Hour + time.Duration(minutes)*time.Minute
	assert.InDelta(t, left.Minutes(), said.Minutes(), 124.0/60+1, "said %s, room has %s", said, left)
	assert.LessOrEqual(t, said, left)
}

func TestGlanceOfTheExampleIsMarkedAtEveryWidth(t *testing.T) {
	moments := []string{"2026-12-05 21:00", "2026-12-05 23:14", "2026-12-05 23:29:30", "2026-12-05 23:30:20", "2026-12-06 04:30"}
	widths := []int{6, 10, 19, 20, 47, 80, 200}
	if *sweep > 1 {
		for width := 7; width < 120; width += 5 {
			widths = append(widths, width)
		}
	}
	for _, at := range moments {
		for _, width := range widths {
			t.Run(fmt.Sprintf("%s in %d columns", at, width), func(t *testing.T) { glanceIsMarked(t, at, width) })
		}
	}
}

func glanceIsMarked(t *testing.T, at string, width int) {
	s := newShell(t)
	code := s.run("", "glance", "--once", "--width", fmt.Sprint(width), "--at", at)
	assert.Contains(t, []int{command.Done, actNow}, code, s.err)
	line := strings.TrimSuffix(s.out, "\n")
	assert.NotContains(t, line, "\n", "one line")
	assert.NotContains(t, line, "\x1b")
	assert.NotEmpty(t, line)
	assert.LessOrEqual(t, draw.Width(line), width)
	if width >= 20 {
		assert.Contains(t, line, "EXAMPLE")
	}
	if !strings.Contains(line, "…") && width >= 10 { // the answer comes first: a length of time, or a word in capitals
		assert.Regexp(t, `^(\d+ (h|min|s)|[A-Z]+)`, line)
	}
}

func TestGlanceDropsInAFixedOrder(t *testing.T) {
	s := newShell(t)
	var lines []string
	for _, width := range []int{100, 79, 60, 50, 40, 30, 20, 10, 6} {
		s.run("", "glance", "--once", "--width", fmt.Sprint(width))
		lines = append(lines, fmt.Sprintf("%3d %s", width, s.out))
	}
	golden(t, "glance-widths.golden", strings.Join(lines, ""))
}

func TestGlanceInASCII(t *testing.T) {
	s := newShell(t)
	for name, run := range map[string]func(){
		"by flag":            func() { s.run("", "glance", "--once", "--ascii", "--at", "2026-12-05 23:29:30") },
		"by locale":          func() { s.env["LANG"] = "C"; s.run("", "glance", "--once", "--at", "2026-12-05 23:29:30") },
		"by a dumb terminal": func() { s.env["TERM"], s.terminal = "dumb", true; s.run("", "glance", "--once") },
	} {
		run()
		require.Contains(t, s.out, "EXAMPLE", name)
		for _, r := range s.out {
			require.Less(t, r, rune(128), name)
		}
		s = newShell(t)
	}
}

func TestGlanceInATerminalWritesOverItsLine(t *testing.T) {
	s := inTheDark(t)
	s.tell("derotator-on", "-16")
	s.run("", "glance", "--once")
	once := s.out
	s.terminal = true
	require.Equal(t, command.Done, s.run("", "glance"), "the end of the input ends it")
	assert.Equal(t, "\r"+once, s.out, "no escapes, and the line stays when it ends")
	s.terminal = false
	require.Equal(t, command.Done, s.run("", "glance", "--follow"))
	assert.Equal(t, once, s.out, "a line for each change")
}

// A pipe gets the line and its end: who wants it to go on says so.
func TestGlanceInAPipeWritesOnce(t *testing.T) {
	s := newShell(t)
	s.ownKit()
	assert.Equal(t, noNight, s.run("", "glance"), "the exit codes of --once")
	assert.Equal(t, 1, strings.Count(s.out, "\n"))
	assert.Equal(t, command.WrongUse, s.run("", "glance", "--once", "--follow"))
	assert.Contains(t, s.err, "leave one of them out")
}

func TestGlanceRefuses(t *testing.T) {
	for _, test := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"--width", "5"}, command.WrongUse, "from 6 to 1000 columns"},
		{[]string{"--width", "wide"}, command.WrongUse, "--width"},
		{[]string{"now"}, command.WrongUse, `takes no "now"`},
		{[]string{"--speed", "fast"}, command.WrongUse, "0.1 to 3600"},
		{[]string{"--once", "--kit", "/nowhere/kit.toml"}, command.Failed, "there is no kit file"},
	} {
		s := newShell(t)
		assert.Equal(t, test.code, s.run("", append([]string{"glance"}, test.args...)...), test.args)
		assert.Contains(t, s.err, test.says)
		assert.Empty(t, s.out)
	}
}
