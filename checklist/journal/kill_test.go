package journal_test

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"duskhand/checklist/journal"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// childPath names the journal that a copy of this test program is to write until it is killed.
const childPath = "DUSKHAND_TEST_JOURNAL"

// sweep makes the long tests longer: by how many times they go their rounds.
var sweep = flag.Int("sweep", 1, "how many times as long the long tests take")

func TestMain(m *testing.M) {
	if path := os.Getenv(childPath); path != "" {
		fmt.Fprintln(os.Stderr, writeUntilKilled(path))
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// writeUntilKilled appends for ever and prints each event once it is confirmed.
func writeUntilKilled(path string) error {
	j, err := journal.Open(path, "child", ticking())
	if err != nil {
		return err
	}
	for i := 0; ; i++ {
		e, err := j.Append(night, "noted", evening, body{Count: i})
		if err != nil {
			return err
		}
		line, err := json.Marshal(e)
		if err != nil {
			return err
		}
		if _, err := fmt.Println(string(line)); err != nil {
			return err
		}
	}
}

func TestNothingConfirmedIsLostWhenTheWriterIsKilled(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	const seed = 4
	rounds := 10 * *sweep
	random := rand.New(rand.NewPCG(seed, 0))
	var confirmed []journal.Event
	for round := range rounds {
		confirmed = append(confirmed, killedWriter(t, path, time.Duration(random.IntN(20000))*time.Microsecond)...)
		requireAll(t, path, confirmed, fmt.Sprintf("round %d, seed %d", round, seed)) // the dead one's lock is free
	}
	assert.Greater(t, len(confirmed), rounds, "each child confirmed something")
}

// killedWriter runs a writer, kills it so long after its first event, and returns what it confirmed.
func killedWriter(t *testing.T, path string, after time.Duration) (confirmed []journal.Event) {
	t.Helper()
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), childPath+"="+path)
	child.Stderr = os.Stderr
	out, err := child.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, child.Start())
	lines := bufio.NewReader(out)
	for {
		line, err := lines.ReadBytes('\n')
		if err == io.EOF {
			break // a line cut short was not confirmed to anybody
		}
		require.NoError(t, err)
		var e journal.Event
		require.NoError(t, json.Unmarshal(line, &e))
		if confirmed = append(confirmed, e); len(confirmed) == 1 {
			time.AfterFunc(after, func() { _ = child.Process.Kill() })
		}
	}
	require.Error(t, child.Wait(), "killed")
	require.NotEmpty(t, confirmed)
	return confirmed
}
