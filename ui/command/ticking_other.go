//go:build !unix

package command

import "os"

func endingSignals() []os.Signal { return []os.Signal{os.Interrupt} }

func letBackground() {}
