package hook

import (
	"os"
	"strconv"

	"golang.org/x/sys/unix"
)

// keepFilesToOurselves marks all open files but the standard three to be closed in programs that are started. Go
// does so with those that it opens; the library that reads the terminal does not with its epoll descriptor.
func keepFilesToOurselves() {
	const first = 3
	if unix.CloseRange(first, ^uint(0), unix.CLOSE_RANGE_CLOEXEC) == nil {
		return
	}
	entries, err := os.ReadDir("/proc/self/fd") // before Linux 5.11
	if err != nil {
		return
	}
	for _, entry := range entries {
		if fd, err := strconv.Atoi(entry.Name()); err == nil && fd >= first {
			unix.CloseOnExec(fd)
		}
	}
}
