package command_test

import (
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// sweep makes the long tests longer: by how many times they go their rounds.
var sweep = flag.Int("sweep", 1, "how many times as long the long tests take; from 2 on the whole night is lived too")

// atOnce is how many of the tests that drive the real binary run side by side: they wait for its clock and for the
// disk, and compute little.
const atOnce = "8"

// built is the real binary, linked once for all tests.
var built struct {
	sync.Once
	path   string
	err    error
	output []byte
}

func TestMain(m *testing.M) {
	_ = flag.Set("test.parallel", atOnce) // before the command line's own
	flag.Parse()
	code := m.Run()
	if built.path != "" {
		_ = os.RemoveAll(filepath.Dir(built.path))
	}
	os.Exit(code)
}

// buildBinary returns the path of the program as it stands.
func buildBinary(t *testing.T) string {
	t.Helper()
	built.Do(func() {
		var folder string
		if folder, built.err = os.MkdirTemp("", "duskhand-test-"); built.err != nil {
			return
		}
		built.path = filepath.Join(folder, "duskhand")
		words := append([]string{"build", "-o", built.path}, withDetector()...)
		built.output, built.err = exec.Command("go", append(words, "duskhand")...).CombinedOutput()
	})
	require.NoError(t, built.err, string(built.output))
	return built.path
}
