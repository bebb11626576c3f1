//go:build !windows

package command_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/journal"
	"duskhand/plan/kit"
)

// The real binary is killed outright at random moments, thousands of times in a long sweep, while it writes a
// night. Whatever it had confirmed by then is there afterwards, in order and once.
func TestKilledAtRandomMomentsNothingConfirmedIsLost(t *testing.T) {
	t.Parallel()
	binary := buildBinary(t)
	const workers = 4
	rounds := 8
	if *sweep > 1 {
		rounds = 20 * *sweep
	}
	var all sync.WaitGroup
	for w := range workers {
		all.Add(1)
		go func() {
			defer all.Done()
			killTells(t, binary, uint64(w), rounds)
		}()
	}
	all.Wait()
}

// homeWithKit is a home whose kit is the example's, as a kit of one's own.
func homeWithKit(t *testing.T) (home string, env []string) {
	t.Helper()
	home = t.TempDir()
	folder := filepath.Join(home, "duskhand")
	require.NoError(t, os.MkdirAll(folder, 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "kit.toml"), kit.ExampleTOML(), 0o600))
	return home, append(os.Environ(), "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_STATE_HOME="+home, "LC_ALL=C.UTF-8", "TERM=xterm-256color")
}

func killTells(t *testing.T, binary string, seed uint64, rounds int) {
	home, env := homeWithKit(t)
	random := rand.New(rand.NewPCG(2026, seed))
	confirmed, killed := map[string]bool{}, 0
	// The moment is drawn from a window that grows with each kill and shrinks with each confirmation, by shares of
	// itself: however long a loaded machine takes for one event, the window soon follows, four of five are killed,
	// and most of those while the event is being written.
	window := 60 * time.Millisecond
	enough := rounds / 10 // of the few rounds of a short test: one
	for i := 0; i < rounds || i < 40*rounds && (killed <= enough || len(confirmed) <= enough); i++ {
		words := fmt.Sprintf("note number %d", i)
		cmd := exec.Command(binary, "tell", "note", "number", fmt.Sprint(i))
		cmd.Env = env
		var out bytes.Buffer
		cmd.Stdout, cmd.Stderr = &out, &out
		if !assert.NoError(t, cmd.Start()) {
			return
		}
		timer := time.AfterFunc(time.Duration(random.Int64N(int64(window))), func() { _ = cmd.Process.Kill() })
		err := cmd.Wait()
		timer.Stop()
		switch {
		case err == nil:
			confirmed[strings.TrimPrefix(words, "note ")] = true
			window = max(5*time.Millisecond, window-window/3)
		case strings.Contains(err.Error(), "killed"):
			killed++
			window += window / 10
		default:
			assert.NoError(t, err, "round %d, seed %d: %s", i, seed, out.String())
		}
	}
	assert.Greater(t, killed, enough, "some were killed (seed %d)", seed)
	assert.Greater(t, len(confirmed), enough, "and some were not")
	assertNotes(t, filepath.Join(home, "duskhand", "journal.db"), confirmed, seed)
}

func assertNotes(t *testing.T, path string, confirmed map[string]bool, seed uint64) {
	j, err := journal.OpenReader(path)
	if !assert.NoError(t, err) {
		return
	}
	events, err := j.Since(0)
	assert.NoError(t, err)
	assert.NoError(t, j.Close())
	found := map[string]int{}
	for i, e := range events {
		assert.Equal(t, int64(i+1), e.Ordinal, "no gap (seed %d)", seed)
		if _, after, ok := strings.Cut(string(e.Body), `"text":"`); ok {
			found[strings.TrimSuffix(after, `"}`)]++
		}
	}
	for note := range confirmed {
		assert.Equal(t, 1, found[note], "%q was confirmed (seed %d)", note, seed)
	}
}

// The screens too: what they show as said is on the disk when they are killed in the next instant.
func TestScreensKilledAfterShowingLoseNothing(t *testing.T) {
	t.Parallel()
	binary := buildBinary(t)
	home, _ := homeWithKit(t)
	rounds := 3
	if *sweep > 1 {
		rounds = 8 * *sweep
	}
	for i := range rounds {
		term := openTerminalIn(t, binary, home, 100, 30)
		term.sees("of this stage left")
		words := fmt.Sprintf("cloud %d", i)
		term.press("n")
		term.sees("note:")
		term.press(words + "\r")
		term.sees("undo: note")
		require.NoError(t, term.cmd.Process.Kill())
		<-term.done
		j, err := journal.OpenReader(filepath.Join(home, "duskhand", "journal.db"))
		require.NoError(t, err)
		events, err := j.Since(0)
		require.NoError(t, err)
		require.NoError(t, j.Close())
		last := events[len(events)-1]
		require.Contains(t, string(last.Body), words, "round %d: shown, so it is there", i)
		// The next round's screens would show the same words: take the note back through a script.
		undo := exec.Command(term.cmd.Path, "tell", "undo")
		undo.Env = term.cmd.Env
		out, err := undo.CombinedOutput()
		require.NoError(t, err, string(out))
	}
}
