//go:build unix

package command_test

import (
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/command"
)

// A kit that never ends, or never begins, is refused at once.
func TestPipesAndDevicesAreNoKits(t *testing.T) {
	s := newShell(t)
	pipe := filepath.Join(s.home, "pipe.toml")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600)) // nobody writes to it
	for path, says := range map[string]string{pipe: "but a pipe", "/dev/zero": "but a device", s.home: "but a folder"} {
		for _, args := range [][]string{{"kit", "check", path}, {"plan", "--kit", path}, {"tell", "--kit", path, "cloud"}} {
			assert.Equal(t, command.Failed, s.run("", args...), args)
			assert.Contains(t, s.err, says, args)
		}
	}
}
