package command_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui"
	"duskhand/ui/clock"
	"duskhand/ui/command"
	"duskhand/ui/testdata/clocks"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// shell is a person's session: a home of its own, and what the last command printed.
type shell struct {
	t        *testing.T
	home     string
	env      map[string]string
	terminal bool
	now      time.Time
	shown    []ui.Config // what the screens were opened with

	out, err string
	boot     string    // names the machine's start, "" where nobody can tell
	began    time.Time // what its clock would have shown then
}

func newShell(t *testing.T) *shell {
	home := t.TempDir()
	// Config folders are named too, so that no test reads those of the machine.
	return &shell{t: t, home: home, now: time.Date(2026, time.November, 24, 12, 0, 0, 0, time.UTC),
		env: map[string]string{"HOME": home, "XDG_CONFIG_DIRS": filepath.Join(home, "shared"), "LANG": "C.UTF-8", "TERM": "xterm-256color"}}
}

// run runs one command line and returns its exit code.
func (s *shell) run(input string, args ...string) int {
	var out, err bytes.Buffer
	program := command.Program{
		Streams: command.Streams{In: strings.NewReader(input), Out: &out, Err: &err, InTerminal: s.terminal, OutTerminal: s.terminal},
		Env:     func(name string) string { return s.env[name] },
		Clock:   s.clock(),
		Screens: func(c ui.Config) error { s.shown = append(s.shown, c); return nil },
	}
	code := program.Run(args)
	s.out, s.err = out.String(), err.String()
	return code
}

// clock stands at s.now, beside a count since s.began if the machine's start has a name.
func (s *shell) clock() clock.Clock {
	if s.boot == "" {
		return clocks.Fixed(s.now)
	}
	return clocks.LedBeside(func() time.Time { return s.now }, func() time.Duration { return s.now.Sub(s.began) }, s.boot)
}

// write puts a file into the home and returns its path.
func (s *shell) write(name, text string) string {
	path := filepath.Join(s.home, name)
	require.NoError(s.t, os.MkdirAll(filepath.Dir(path), 0o700))
	require.NoError(s.t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// ownKit puts the example's kit where a person's own is found, with some text replaced.
func (s *shell) ownKit(replace ...string) string {
	return s.write(".config/duskhand/kit.toml", strings.NewReplacer(replace...).Replace(string(kit.ExampleTOML())))
}

// golden compares text with a file under testdata, or rewrites that.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(want), got, "golden file %s; rewrite with -update and read the difference", path)
}
