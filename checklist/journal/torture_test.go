package journal_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"
)

// torture is how long the files of a journal are damaged in ever new ways; off by default.
var torture = flag.Duration("torture", 0, "damage journals for so long, and print what was tried and lost")

// damages are what can happen to one of a journal's files.
func damages() map[string]func(*rand.Rand, []byte) []byte {
	stretch := func(r *rand.Rand, content []byte) []byte {
		from := r.IntN(len(content))
		return content[from:min(len(content), from+1+r.IntN(8192))]
	}
	return map[string]func(*rand.Rand, []byte) []byte{
		"cut":   func(r *rand.Rand, content []byte) []byte { return content[:r.IntN(len(content))] },
		"empty": func(*rand.Rand, []byte) []byte { return []byte{} },
		"fill":  func(r *rand.Rand, content []byte) []byte { return append(content, make([]byte, r.IntN(8192))...) },
		"flip": func(r *rand.Rand, content []byte) []byte {
			content[r.IntN(len(content))] ^= byte(1 + r.IntN(255))
			return content
		},
		"remove": func(*rand.Rand, []byte) []byte { return nil },
		"swap": func(r *rand.Rand, content []byte) []byte {
			a, b := stretch(r, content), stretch(r, content)
			for i := range min(len(a), len(b)) {
				a[i], b[i] = b[i], a[i]
			}
			return content
		},
		"zero": func(r *rand.Rand, content []byte) []byte {
			clear(stretch(r, content))
			return content
		},
	}
}

// Whatever is done to the files, each event is there as it was appended or counted as lost; whatever happens to those
// who write them, no confirmed event is lost at all.
func TestTorture(t *testing.T) {
	crashed, clean, want := left(t)
	seed := uint64(time.Now().UnixNano())
	random := rand.New(rand.NewPCG(seed, 0))
	tried, lost := map[string]int{}, map[string]int{}
	for end := time.Now().Add(*torture); len(tried) == 0 || time.Now().Before(end); {
		for name, misfortune := range misfortunes() {
			misfortune(t, random, fmt.Sprintf("%s, seed %d", name, seed))
			tried[name]++
		}
		for name, damage := range damages() {
			state := []files{crashed, clean}[random.IntN(2)]
			file := []string{"", "-wal"}[random.IntN(2)]
			if len(state[file]) == 0 || name == "remove" && file == "" {
				continue // a journal that is gone with its file is told by the reader
			}
			content := damage(random, append([]byte{}, state[file]...))
			report := checkDamaged(t, state.put(t, file, content), want, fmt.Sprintf("journal.db%s, %s, seed %d", file, name, seed))
			tried[name]++
			lost[name] += report.Count()
		}
	}
	for name := range damages() {
		t.Logf("%-11s: %4d tried, %5d events lost and counted, none lost unsaid", name, tried[name], lost[name])
	}
	for name := range misfortunes() {
		t.Logf("%-11s: %4d tried, no event lost", name, tried[name])
	}
}
