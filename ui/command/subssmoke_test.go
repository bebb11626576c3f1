//go:build !windows

package command_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// In a terminal a line says how far it is, and Ctrl-C ends it with nothing written.
func TestSubsInATerminal(t *testing.T) {
	t.Parallel()
	s := newShell(t)
	folder := filepath.Join(s.home, "frames")
	shots(t, folder, 1, nil)
	binary := buildBinary(t)
	term := openTerminalIn(t, binary, t.TempDir(), 140, 24, "subs", folder)
	require.NoError(t, <-term.done)
	term.sees("Group 1: NGC 2070, 1 light (1 compared): too few to tell.")
	assert.NotContains(t, term.screen(), "measuring", "the line is taken away")

	for i := range 500 { // far more than are measured before the key comes
		require.NoError(t, os.Link(filepath.Join(folder, "sub01.fits"), filepath.Join(folder, fmt.Sprintf("more%03d.fits", i))))
	}
	term = openTerminalIn(t, binary, t.TempDir(), 140, 24, "subs", "--workers", "1", folder)
	term.sees(" of 501")
	assert.Contains(t, term.screen(), "measuring")
	_, err := term.file.WriteString("\x03")
	require.NoError(t, err)
	term.sees("stopped before all 501 lights were measured; nothing was written")
	var code interface{ ExitCode() int }
	require.ErrorAs(t, <-term.done, &code)
	assert.Equal(t, 1, code.ExitCode())
	assert.NotContains(t, term.screen(), "░", "the line is taken away here too")
}
