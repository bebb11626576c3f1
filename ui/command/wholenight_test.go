//go:build !windows

package command_test

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wholeNightAction is what the footer offers for the space bar when something is to be said.
var wholeNightAction = regexp.MustCompile(`space (\S.*?)(   |$)`)

// The whole example night in a real pseudo-terminal, from set-up to pack-up, with the one key that says the
// next thing is done: eight hours in less than a minute. The program must call the rewinds (a slow machine may
// answer too late for one of the four), and end at the stow steps. Without a sweep the night ends with the first subs.
func TestSmokeTheWholeNight(t *testing.T) {
	t.Parallel()
	term := openTerminal(t, 100, 30, "--at", "2026-12-05 20:05", "--speed", "800")
	term.sees("of this stage left")
	said := map[string]int{}
	deadline := time.Now().Add(3 * time.Minute) // only a hung program meets it
	whole := *sweep > 1
	for offered := time.Now(); said["derotator off"] == 0 || time.Since(offered) < 3*time.Second; {
		if !whole && said["subs started"] > 0 {
			break
		}
		require.True(t, time.Now().Before(deadline), "the night does not end:\n%s", term.screen())
		screen := term.screen()
		action := wholeNightAction.FindStringSubmatch(footerOf(screen))
		if action == nil { // waiting offers nothing
			time.Sleep(10 * time.Millisecond)
			continue
		}
		offered = time.Now()
		said[firstWords(action[1])]++
		term.press(" ")
		term.changes(footerOf(screen))
	}
	if whole {
		assert.GreaterOrEqual(t, said["rewound to"], 2, "%v", said)
		assert.GreaterOrEqual(t, said["subs started"], 3, "%v", said)
		assert.GreaterOrEqual(t, said["subs stopped"], 3, "%v", said)
		term.press("b") // flats, darks, park, pack: all said too
		term.sees("0 of")
	}
	term.press("q")
	term.sees("keeps it under a name first")
	term.press("q")
	select {
	case err := <-term.done:
		require.NoError(t, err)
	case <-time.After(10 * time.Second):
		t.Fatal("q did not end the program")
	}
}

// changes waits until the footer is another than it was, or for as long as a person would before pressing again.
func (term *terminal) changes(footer string) {
	patience := time.Now().Add(time.Second)
	for footerOf(term.screen()) == footer && time.Now().Before(patience) {
		time.Sleep(5 * time.Millisecond)
	}
}

func footerOf(screen string) string {
	lines := strings.Split(strings.TrimRight(screen, "\n "), "\n")
	return lines[len(lines)-1]
}

func firstWords(action string) string {
	words := strings.Fields(action)
	return strings.Join(words[:min(2, len(words))], " ")
}
