//go:build !windows

package command_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// The real binary in a pseudo-terminal: the lines come, go on with the night, and end with Ctrl-C and status 0.
func TestSmokeLinesEndWithCtrlC(t *testing.T) {
	t.Parallel()
	for _, command := range []struct {
		args []string
		sees []string
	}{
		{[]string{"glance", "--speed", "120"}, []string{"16 min until the rewind, at 23:30", "12 min until the rewind, at 23:30"}},
		{[]string{"watch", "--lines", "--speed", "600"}, []string{"EXAMPLE NIGHT", "Soon: after sub 61", "Rewound to −16°."}},
	} {
		term := openTerminal(t, 100, 40, command.args...)
		for _, words := range command.sees {
			term.sees(words)
		}
		term.press("\x03")
		select {
		case err := <-term.done:
			require.NoError(t, err)
		case <-time.After(10 * time.Second):
			t.Fatalf("Ctrl-C did not end %v", command.args)
		}
	}
}
