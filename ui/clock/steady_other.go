//go:build !linux

package clock

import "time"

// Go's monotonic clock stands still while the machine sleeps on some systems.
const steadyCountsSleep = false

func steady() time.Duration { return time.Since(processStart) }
