//go:build linux

package command_test

import (
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// A terminal's hang-up is a way to leave: in order, with the terminal as it was found.
func TestSmokeHangUpLeavesTheTerminalAsItWas(t *testing.T) {
	t.Parallel()
	// Whoever runs the tests may ignore the signal (nohup), and a program begins with what its parent ignores: once it is
	// asked for here, it begins with it as usual.
	unheard := make(chan os.Signal, 1)
	signal.Notify(unheard, syscall.SIGHUP)
	defer signal.Stop(unheard)
	term := openTerminal(t, 80, 24)
	term.sees("until the rewind")
	raw, err := unix.IoctlGetTermios(int(term.file.Fd()), unix.TCGETS)
	require.NoError(t, err)
	require.Zero(t, raw.Lflag&unix.ICANON, "the screens take the terminal over")
	require.NoError(t, term.cmd.Process.Signal(syscall.SIGHUP))
	require.NoError(t, term.ended())
	after, err := unix.IoctlGetTermios(int(term.file.Fd()), unix.TCGETS)
	require.NoError(t, err)
	assert.NotZero(t, after.Lflag&unix.ICANON, "lines again")
	assert.NotZero(t, after.Lflag&unix.ECHO, "and what is typed shows")
}

// Where the signal is ignored, the end of what can be read tells that nobody is there any more.
func TestSmokeProgramEndsWithItsTerminal(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	cmd := exec.Command("sh", "-c", `trap "" HUP; exec "$0"`, buildBinary(t))
	cmd.Env = append(os.Environ(), "TERM=xterm-256color", "LANG=C.UTF-8", "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_STATE_HOME="+filepath.Join(home, "state"))
	file, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: 80, Rows: 24})
	require.NoError(t, err)
	term := &terminal{t: t, cmd: cmd, file: file, done: make(chan error, 1)}
	buffer := make([]byte, 1<<16)
	n, err := file.Read(buffer) // it has begun to draw
	require.NoError(t, err)
	require.NotZero(t, n)
	go func() { term.done <- cmd.Wait() }()
	t.Cleanup(func() { _ = cmd.Process.Kill() })
	require.NoError(t, file.Close())
	_ = term.ended() // with whatever status: there is nobody to tell
}

// ended waits for the program's end, with a deadline that only one that goes on for ever meets.
func (term *terminal) ended() error {
	term.t.Helper()
	select {
	case err := <-term.done:
		return err
	case <-time.After(30 * time.Second):
		require.FailNow(term.t, "the program goes on")
		return nil
	}
}
