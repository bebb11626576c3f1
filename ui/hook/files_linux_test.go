package hook_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"

	"duskhand/ui/hook"
)

// A descriptor that a library left open for programs that are started, as the terminal's reader does.
func TestProgramsGetNoneOfOurFiles(t *testing.T) {
	leaked, err := unix.EpollCreate1(0)
	require.NoError(t, err)
	defer unix.Close(leaked)
	file := filepath.Join(t.TempDir(), "files")
	require.Empty(t, hook.Run(context.Background(), bound(t, []string{os.Args[0], "files", file}), happening()))
	written, err := os.ReadFile(file)
	require.NoError(t, err)
	// The program's own runtime opens an epoll of its own once it opens files; the test looks before that.
	assert.False(t, strings.Contains(string(written), "eventpoll"), "%s", written)
}
