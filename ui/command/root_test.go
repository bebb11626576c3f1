package command_test

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui"
	"duskhand/ui/command"
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// screens opens the screens and returns what they were given.
func (s *shell) screens(args ...string) ui.Config {
	s.t.Helper()
	s.terminal = true
	require.Equal(s.t, command.Done, s.run("", args...), s.err)
	require.NotEmpty(s.t, s.shown)
	return s.shown[len(s.shown)-1]
}

func TestScreensWithoutAKitReplayTheExample(t *testing.T) {
	s := newShell(t)
	c := s.screens("--speed", "60")
	assert.True(t, c.Kit.Example)
	assert.Empty(t, c.KitPath)
	assert.True(t, c.Clock.Replaying())
	assert.Equal(t, 60.0, c.Clock.Speed())
	assert.WithinRange(t, c.Clock.Now(), instant(t, "2026-12-05T12:44:00Z"), instant(t, "2026-12-05T13:44:00Z"))
	assert.Equal(t, filepath.Join(s.home, ".local", "state", "duskhand", "journal.db"), c.JournalPath)
	s.env["XDG_STATE_HOME"] = filepath.Join(s.home, "state")
	assert.Equal(t, filepath.Join(s.home, "state", "duskhand", "journal.db"), s.screens().JournalPath)
}

func TestScreensWithAKitShowTheWorldsTime(t *testing.T) {
	s := newShell(t)
	path := s.ownKit()
	c := s.screens()
	assert.Equal(t, path, c.KitPath)
	assert.False(t, c.Kit.Example)
	assert.False(t, c.Clock.Replaying())
	assert.Equal(t, s.now, c.Clock.Now())
}

func instant(t *testing.T, text string) time.Time {
	at, err := time.Parse(time.RFC3339, text)
	require.NoError(t, err)
	return at
}

func TestAtReadsBothWaysOfWritingATime(t *testing.T) {
	for text, want := range map[string]string{
		"2026-12-05T12:44:00Z":      "2026-12-05T12:44:00Z",
		"2026-12-05T23:14:00+10:30": "2026-12-05T12:44:00Z",
		"2026-12-05 23:14":          "2026-12-05T12:44:00Z", // ACDT, UTC+10:30
		"2026-12-05 23:14:30":       "2026-12-05T12:44:30Z",
		"2026-06-05 23:14":          "2026-06-05T13:44:00Z", // ACST, UTC+09:30
	} {
		s := newShell(t)
		s.ownKit()
		c := s.screens("--at", text)
		assert.True(t, c.Clock.Replaying())
		assert.WithinRange(t, c.Clock.Now(), instant(t, want), instant(t, want).Add(time.Minute), text)
	}
}

func TestScreensRefuse(t *testing.T) {
	tests := []struct {
		name string
		args []string
		own  bool
		env  map[string]string
		want string
	}{
		{name: "speed without a replay", args: []string{"--speed", "60"}, own: true, want: "add --at TIME"},
		{name: "a speed that is none", args: []string{"--speed", "fast"}, want: "0.1 to 3600"},
		{name: "no speed at all", args: []string{"--speed", "NaN"}, want: "0.1 to 3600"},
		{name: "a clock that stands still", args: []string{"--speed", "0"}, want: "0.1 to 3600"},
		{name: "a time that is none", args: []string{"--at", "tonight"}, want: "Australia/Broken_Hill"},
		{name: "a year out of range", args: []string{"--at", "1815-06-18T12:00:00Z"}, want: "1950 to 2100"},
		// South Australia's clocks go from 2 h to 3 h on 2026-10-04, and from 3 h to 2 h on 2026-04-05.
		{name: "a time that the clock skips", args: []string{"--at", "2026-10-04 02:30"}, want: "does not happen"},
		{name: "a time that comes twice", args: []string{"--at", "2026-04-05 02:30"}, want: "2026-04-05T02:30:00+09:30"},
		{name: "a palette that is none", args: []string{"--palette", "pink"}, want: "night, day, mono or contrast"},
		{name: "a terminal without a cursor", env: map[string]string{"TERM": "dumb"}, want: "duskhand plan"},
		{name: "a command that is none", args: []string{"plna"}, want: "did you mean plan?"},
		{name: "a flag that is none", args: []string{"--frob"}, want: "see duskhand --help"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s := newShell(t)
			s.terminal = true
			if test.own {
				s.ownKit()
			}
			for name, value := range test.env {
				s.env[name] = value
			}
			assert.Equal(t, command.WrongUse, s.run("", test.args...))
			assert.Contains(t, s.err, test.want)
			assert.True(t, strings.HasPrefix(s.err, "duskhand: "))
			assert.Empty(t, s.shown)
			assert.Empty(t, s.out)
		})
	}
}

func TestScreensNeedATerminal(t *testing.T) {
	s := newShell(t)
	assert.Equal(t, command.WrongUse, s.run(""))
	assert.Contains(t, s.err, "for plain text use: duskhand plan")
	assert.Empty(t, s.shown)
}

func TestLooksFollowFlagsAndEnvironment(t *testing.T) {
	tests := []struct {
		name    string
		args    []string
		env     map[string]string
		palette theme.Palette
		noColor bool
		profile termenv.Profile
		charset draw.Charset
	}{
		{name: "by default red on black", palette: theme.Night, profile: termenv.ANSI256},
		{name: "by day", args: []string{"--palette", "day"}, palette: theme.Day, profile: termenv.ANSI256},
		{name: "NO_COLOR", env: map[string]string{"NO_COLOR": "1"}, palette: theme.Mono, noColor: true, profile: termenv.ANSI256},
		{name: "an empty NO_COLOR means nothing", env: map[string]string{"NO_COLOR": ""}, palette: theme.Night, profile: termenv.ANSI256},
		{name: "a terminal of all colours", env: map[string]string{"COLORTERM": "truecolor"}, palette: theme.Night, profile: termenv.TrueColor},
		{name: "ASCII by flag", args: []string{"--ascii"}, palette: theme.Night, profile: termenv.ANSI256, charset: draw.ASCII},
		{name: "ASCII by locale", env: map[string]string{"LC_ALL": "C"}, palette: theme.Night, profile: termenv.ANSI256, charset: draw.ASCII},
		{name: "high contrast", args: []string{"--palette", "contrast"}, palette: theme.Contrast, profile: termenv.ANSI256},
		{name: "a terminal of sixteen colours", env: map[string]string{"TERM": "linux"}, palette: theme.Night, profile: termenv.ANSI},
		{name: "a terminal without colour keeps bold and reverse", env: map[string]string{"TERM": "vt100"}, palette: theme.Mono, noColor: true, profile: termenv.Ascii},
		{name: "the old console of Windows", env: map[string]string{"OS": "Windows_NT", "LANG": "", "TERM": ""}, palette: theme.Mono, noColor: true, profile: termenv.Ascii, charset: draw.ASCII},
		{name: "Windows Terminal", env: map[string]string{"OS": "Windows_NT", "LANG": "", "TERM": "", "WT_SESSION": "1", "COLORTERM": "truecolor"}, palette: theme.Night, profile: termenv.TrueColor},
		{name: "LC_CTYPE before LANG", env: map[string]string{"LC_CTYPE": "POSIX"}, palette: theme.Night, profile: termenv.ANSI256, charset: draw.ASCII},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s := newShell(t)
			for name, value := range test.env {
				s.env[name] = value
			}
			c := s.screens(test.args...)
			assert.Equal(t, test.palette, c.Palette)
			assert.Equal(t, test.noColor, c.NoColor)
			assert.Equal(t, test.profile, c.Profile)
			assert.Equal(t, test.charset, c.Charset)
		})
	}
}

func TestHelpOfEveryCommand(t *testing.T) {
	for _, words := range [][]string{{}, {"plan"}, {"compute"}, {"kit"}, {"kit", "check"}, {"kit", "new"}, {"kit", "reference"}} {
		s := newShell(t)
		require.Equal(t, command.Done, s.run("", append(words, "--help")...))
		assert.Contains(t, s.out, "Examples:", "%v", words)
		assert.Empty(t, s.err)
	}
	s := newShell(t)
	s.run("", "--help")
	assert.Contains(t, s.out, "Exit codes:")
}

func TestVersion(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "--version"))
	assert.Regexp(t, `^duskhand \S`, s.out)
}

func TestCompletion(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "__complete", "plan", "--target", "tarant"))
	assert.Contains(t, s.out, "Tarantula Nebula")
	require.Equal(t, command.Done, s.run("", "__complete", "--palette", ""))
	assert.Contains(t, s.out, "mono")
	for _, shell := range []string{"bash", "zsh", "fish", "powershell"} {
		require.Equal(t, command.Done, s.run("", "completion", shell))
		assert.NotEmpty(t, s.out)
	}
}

func TestCompletionKnowsWhatTellTakes(t *testing.T) {
	s := newShell(t)
	s.ownKit()
	for _, test := range []struct {
		typed []string
		want  string
	}{
		{[]string{"tell", "rew"}, "rewound\tthe derotator has been turned"},
		{[]string{"tell", "subs-started", ""}, "L\nR\nG\nB\n"},
		{[]string{"tell", "target", "ngc 13"}, "NGC 1365\n"},
		{[]string{"tell", "sighted", "cano"}, "Canopus\n"},
		{[]string{"tell", "step-done", "bal"}, "balance\n"},
		{[]string{"tell", "guide-check", ""}, "yes\nno\n"},
		{[]string{"kit", "new", "--set", "site.lat"}, "site.latitude=\tLatitude, north positive"},
		{[]string{"guide", "s"}, "screens\nscripts\n"},
		{[]string{"help", "gu"}, "guide"},
	} {
		require.Equal(t, command.Done, s.run("", append([]string{"__complete"}, test.typed...)...))
		assert.Contains(t, s.out, test.want, test.typed)
	}
	for _, typed := range [][]string{{"plan", "--"}, {"targets", "--"}, {"--"}} {
		require.Equal(t, command.Done, s.run("", append([]string{"__complete"}, typed...)...))
		assert.NotContains(t, s.out, "`", typed)
		assert.Contains(t, s.out, "--kit\tthe kit file at PATH")
	}
}

// What is no topic, no shell or no number is wrong use, and is told so in words.
func TestWrongUseIsToldInWords(t *testing.T) {
	for _, test := range []struct {
		args []string
		want string
	}{
		{[]string{"help", "moon"}, `there is no help about "moon"; there is about budget, card,`},
		{[]string{"help", "kit", "mend"}, `there is no help about "kit mend"`},
		{[]string{"completion", "csh"}, `there are no completions for "csh"; say for which shell: bash, fish, powershell, zsh`},
		{[]string{"targets", "--least", "two"}, `--least is "two"; give a number, as 2.5 or 2,5, for HOURS`},
		{[]string{"targets", "--top", "2.5"}, `--top is "2.5"; give a whole number, as 12`},
		{[]string{"budget", "--temperature", "cold", "--humidity", "85"}, `--temperature is "cold"; give a number`},
		{[]string{"plan", "--json=perhaps"}, `--json is "perhaps"; leave the value out, or give true or false`},
		{[]string{"room", "long"}, `the length of the sub is "long"; give seconds from 0 to 86400`},
		{[]string{"--speed", "fast"}, `--speed is "fast"; give a number from 0.1 to 3600`},
	} {
		s := newShell(t)
		s.terminal = true
		assert.Equal(t, command.WrongUse, s.run("", test.args...), test.args)
		assert.Contains(t, s.err, test.want)
		assert.NotContains(t, s.err, "strconv")
	}
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "help", "kit", "new"))
	assert.Contains(t, s.out, "Writes a new kit file")
	require.Equal(t, command.Done, s.run("", "help"))
	assert.Contains(t, s.out, "Exit codes:")
}

// Numbers are taken as people type them.
func TestFlagsTakeADecimalComma(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "targets", "--least", "2.5", "--top", "5"), s.err)
	point := s.out
	require.Equal(t, command.Done, s.run("", "targets", "--least", "2,5", "--top", "5"), s.err)
	assert.Equal(t, point, s.out)
	require.Equal(t, command.Done, s.run("", "budget", "--temperature", "−3,5", "--humidity", "85"), s.err)
	s.terminal = true
	require.Equal(t, command.Done, s.run("", "--speed", "1,5"), s.err)
}

// An empty instant is a variable that was not set, not the world's time.
func TestAnEmptyInstantIsRefused(t *testing.T) {
	for _, args := range [][]string{{"--at", ""}, {"stars", "--at", ""}, {"frame", "--at="}, {"budget", "--at", " "}, {"watch", "--lines", "--at", ""}, {"glance", "--once", "--at", ""}} {
		s := newShell(t)
		assert.Equal(t, command.WrongUse, s.run("", args...), args)
		assert.Contains(t, s.err, "--at is empty", args)
	}
}
