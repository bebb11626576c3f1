//go:build !unix

package terminal

import "os"

// hearsEnd: here the library takes nothing but the console's own file, and a console that is closed ends its
// programs.
const hearsEnd = false

func hangupSignals() []os.Signal { return nil }
