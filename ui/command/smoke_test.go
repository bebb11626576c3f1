//go:build !windows

package command_test

import (
	"bytes"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/require"

	"duskhand/ui/testdata/emulator"
)

// terminal is the real binary in a pseudo-terminal, with an emulator that keeps its screen.
type terminal struct {
	t    *testing.T
	cmd  *exec.Cmd
	file *os.File
	mu   sync.Mutex
	emu  emulator.Screen
	bell bytes.Buffer
	said bytes.Buffer // all that it ever wrote: lines that have scrolled off are still there
	done chan error
}

func openTerminal(t *testing.T, width, height int, args ...string) *terminal {
	t.Helper()
	return openTerminalIn(t, buildBinary(t), t.TempDir(), width, height, args...)
}

// openTerminalIn is openTerminal for a home that may hold a kit and a journal.
func openTerminalIn(t *testing.T, binary, home string, width, height int, args ...string) *terminal {
	t.Helper()
	term := &terminal{t: t, cmd: exec.Command(binary, args...), emu: emulator.New(width, height), done: make(chan error, 1)}
	term.cmd.Env = append(os.Environ(), "TERM=xterm-256color", "COLORTERM=truecolor", "LANG=C.UTF-8", "LC_ALL=C.UTF-8", "NO_COLOR=", "HOME="+home,
		"XDG_CONFIG_HOME="+home, "XDG_CONFIG_DIRS="+home, "XDG_STATE_HOME="+home)
	var err error
	term.file, err = pty.StartWithSize(term.cmd, &pty.Winsize{Cols: uint16(width), Rows: uint16(height)})
	require.NoError(t, err)
	go term.read()
	go func() { term.done <- term.cmd.Wait() }()
	t.Cleanup(func() { _ = term.cmd.Process.Kill(); _ = term.file.Close() })
	return term
}

func (term *terminal) read() {
	buffer := make([]byte, 64*1024)
	for {
		n, err := term.file.Read(buffer)
		if err != nil {
			return
		}
		term.mu.Lock()
		term.bell.WriteString(strings.Repeat("\a", bytes.Count(buffer[:n], []byte("\a"))))
		_, _ = term.said.Write(buffer[:n])
		_, _ = term.emu.Write(buffer[:n])
		term.mu.Unlock()
	}
}

func (term *terminal) screen() string {
	term.mu.Lock()
	defer term.mu.Unlock()
	return term.emu.String()
}

// sees waits for words on the screen.
func (term *terminal) sees(words string) {
	term.t.Helper()
	term.waits(words, func() bool { return strings.Contains(term.screen(), words) })
}

// wrote waits for words anywhere in what the program has written so far, scrolled off or not.
func (term *terminal) wrote(words string) {
	term.t.Helper()
	term.waits(words, func() bool {
		term.mu.Lock()
		defer term.mu.Unlock()
		return bytes.Contains(term.said.Bytes(), []byte(words))
	})
}

// waits waits for a condition, with a deadline that only a hung program meets.
func (term *terminal) waits(what string, holds func() bool) {
	term.t.Helper()
	deadline := time.Now().Add(30 * time.Second)
	for !holds() {
		require.True(term.t, time.Now().Before(deadline), "never saw %q on\n%s", what, term.screen())
		time.Sleep(20 * time.Millisecond)
	}
}

func (term *terminal) press(keys string) {
	term.t.Helper()
	_, err := term.file.WriteString(keys)
	require.NoError(term.t, err)
}

// The real binary, an hour of the example night at high speed: it opens in a run, calls the rewind, is
// taken through the loop by one key, and leaves with status 0.
func TestSmokeAnHourOfTheExampleNight(t *testing.T) {
	t.Parallel()
	term := openTerminal(t, 80, 24, "--speed", "200")
	term.sees("EXAMPLE NIGHT")
	term.sees("until the rewind, at 23:30")
	term.press("\t")
	term.sees("of subs still to come tonight")
	term.press("\t")
	term.sees("to be sure")
	term.press("\t")
	term.sees("focus holds within")
	term.press("\t")
	term.sees("camera angle")
	term.press("b")
	term.sees("of this stage left")
	term.press("1?")
	term.sees("Never point an unfiltered telescope")
	term.press("?")
	term.sees("now, before the limit at 23:33")
	for _, then := range []string{"Read the thermometer", "space rewound to −16°", "your own eyes", "its place on the chip", "a correction moves the guide star back", "Start guiding",
		"space subs started", "sub 1 has"} { // the loop, one press each
		term.press(" ")
		term.sees(then)
	}
	term.sees("00:14:") // an hour after it was opened
	term.mu.Lock()
	bells := term.bell.Len()
	term.mu.Unlock()
	require.GreaterOrEqual(t, bells, 2, "a bell before the call and one at it")
	term.press("q")
	term.sees("nothing that you say in it is kept")
	term.press("q")
	select {
	case err := <-term.done:
		require.NoError(t, err)
	case <-time.After(10 * time.Second):
		t.Fatal("q did not end the program")
	}
}
