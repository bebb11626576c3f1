//go:build unix

package command

import (
	"os"
	"os/signal"
	"syscall"
)

func endingSignals() []os.Signal { return []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} }

// letBackground lets the program run behind a shell: there, reading the terminal would stop it.
func letBackground() { signal.Ignore(syscall.SIGTTIN) }
