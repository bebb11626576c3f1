package clock

import (
	"os"
	"strings"
	"time"

	"golang.org/x/sys/unix"
)

const steadyCountsSleep = true

// steady counts from the machine's start, sleep included: CLOCK_BOOTTIME, see clock_gettime(2). Go's own
// monotonic clock stands still while a laptop sleeps. Without the call, which no Linux since 2.6.39 lacks,
// Go's clock has to do.
func steady() time.Duration {
	var ts unix.Timespec
	if err := unix.ClockGettime(unix.CLOCK_BOOTTIME, &ts); err != nil {
		return time.Since(processStart)
	}
	return time.Duration(ts.Nano())
}

// boot names the machine's start, see random(4): boot_id.
func boot() string {
	id, err := os.ReadFile("/proc/sys/kernel/random/boot_id")
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(id))
}
