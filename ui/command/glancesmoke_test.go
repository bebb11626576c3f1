//go:build !windows

package command_test

import (
	"regexp"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// The real binary in a pseudo-terminal: the lines come, go on with the night, and end with Ctrl-C and status 0.
func TestSmokeLinesEndWithCtrlC(t *testing.T) {
	t.Parallel()
	for _, command := range []struct {
		args   []string
		goesOn func(*terminal)
	}{
		{[]string{"glance", "--speed", "120"}, countsDown},
		{[]string{"watch", "--lines", "--speed", "600"}, func(term *terminal) {
			for _, words := range []string{"EXAMPLE NIGHT", "Soon: after sub 61", "Rewound to −16°."} {
				term.wrote(words)
			}
		}},
	} {
		term := openTerminal(t, 100, 40, command.args...)
		command.goesOn(term)
		term.press("\x03")
		select {
		case err := <-term.done:
			require.NoError(t, err)
		case <-time.After(30 * time.Second): // as long as any other wait for the program
			t.Fatalf("Ctrl-C did not end %v", command.args)
		}
	}
}

var untilTheRewind = regexp.MustCompile(`(\d+) min until the rewind, at 23:30`)

// countsDown waits until fewer minutes stand there than stood at first. Which ones are seen hangs on how busy the
// machine is: at this speed each stands for half a second.
func countsDown(term *terminal) {
	minutes := func() (int, bool) {
		found := untilTheRewind.FindStringSubmatch(term.screen())
		if found == nil {
			return 0, false
		}
		n, err := strconv.Atoi(found[1])
		return n, err == nil
	}
	first := 0
	term.waits("the minutes until the rewind", func() (ok bool) { first, ok = minutes(); return ok })
	term.waits("fewer minutes, or none", func() bool { n, ok := minutes(); return !ok || n < first })
}
