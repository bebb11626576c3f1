//go:build unix

package terminal

import (
	"os"
	"os/signal"
	"syscall"
)

// hearsEnd: the library reads the terminal through whatever file it is given.
const hearsEnd = true

// hangupSignals is the signal of a closed terminal, unless whoever started the program had it ignored.
func hangupSignals() []os.Signal {
	if signal.Ignored(syscall.SIGHUP) {
		return nil
	}
	return []os.Signal{syscall.SIGHUP}
}
