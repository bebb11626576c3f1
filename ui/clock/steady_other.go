//go:build !linux

package clock

import (
	"fmt"
	"os"
	"time"
)

// Go's monotonic clock stands still while the machine sleeps on some systems.
const steadyCountsSleep = false

func steady() time.Duration { return time.Since(processStart) }

// boot names the start of this program, since that is what the count is from.
func boot() string { return fmt.Sprintf("process %d at %d", os.Getpid(), processStart.UnixNano()) }
