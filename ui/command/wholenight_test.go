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
// answer too late for one of the four), and end at the stow steps.
func TestSmokeTheWholeNight(t *testing.T) {
	term := openTerminal(t, 100, 30, "--at", "2026-12-05 20:05", "--speed", "800")
	term.sees("of this stage left")
	said := map[string]int{}
	deadline := time.Now().Add(3 * time.Minute) // only a hung program meets it
	for {
		require.True(t, time.Now().Before(deadline), "the night does not end:\n%s", term.screen())
		screen := term.screen()
		action := wholeNightAction.FindStringSubmatch(footerOf(screen))
		if action == nil {
			time.Sleep(10 * time.Millisecond)
			continue
		}
		words := firstWords(action[1])
		if words == "derotator on" && beforeDusk(screen) { // it would only spend its travel
			term.press("1")
			time.Sleep(200 * time.Millisecond)
			continue
		}
		said[words]++
		term.press(" ")
		term.changes(footerOf(screen))
		if strings.HasPrefix(words, "derotator off") && term.nightIsOver() {
			break
		}
	}
	assert.GreaterOrEqual(t, said["rewound to"], 2, "%v", said)
	assert.GreaterOrEqual(t, said["subs started"], 3, "%v", said)
	assert.GreaterOrEqual(t, said["subs stopped"], 3, "%v", said)
	term.press("b")
	term.sees("stow")
	for range 20 { // flats, darks, park, pack
		footer := footerOf(term.screen())
		if !strings.Contains(footer, "space done") {
			break
		}
		term.press(" ")
		term.changes(footer)
	}
	term.sees("0 of")
	term.press("q")
	select {
	case err := <-term.done:
		require.NoError(t, err)
	case <-time.After(10 * time.Second):
		t.Fatal("q did not end the program")
	}
}

// nightIsOver tells, once the derotator is seen to be off, whether that was after the last window: a key may meet
// another state than the screen showed when it was pressed, and steps to stow come when the program knows of both.
func (term *terminal) nightIsOver() bool {
	patience := time.Now().Add(10 * time.Second)
	for time.Now().Before(patience) {
		screen := term.screen()
		action := wholeNightAction.FindStringSubmatch(footerOf(screen))
		over := strings.Contains(screen, "Derotator off, flats")
		switch {
		case action != nil && strings.HasPrefix(action[1], "derotator off"): // not heard yet
		case over || action != nil: // else something is to be said first
			return over
		}
		time.Sleep(5 * time.Millisecond)
	}
	return false
}

// changes waits until the footer is another than it was, or for as long as a person would before pressing again.
func (term *terminal) changes(footer string) {
	patience := time.Now().Add(time.Second)
	for footerOf(term.screen()) == footer && time.Now().Before(patience) {
		time.Sleep(5 * time.Millisecond)
	}
}

// beforeDusk tells whether the screen's clock stands before 21:38, when the example's first window opens.
func beforeDusk(screen string) bool {
	clock := regexp.MustCompile(`(\d\d:\d\d):\d\d ACDT`).FindStringSubmatch(screen)
	return clock != nil && clock[1] > "12:00" && clock[1] < "21:38"
}

func footerOf(screen string) string {
	lines := strings.Split(strings.TrimRight(screen, "\n "), "\n")
	return lines[len(lines)-1]
}

func firstWords(action string) string {
	words := strings.Fields(action)
	return strings.Join(words[:min(2, len(words))], " ")
}
