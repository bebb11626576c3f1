//go:build darwin || freebsd || dragonfly

package watch

import (
	"fmt"

	"golang.org/x/sys/unix"
)

// FreeBytes returns how many bytes the user may still write to the disk that a folder is on.
func FreeBytes(folder string) (uint64, error) {
	var disk unix.Statfs_t
	if err := unix.Statfs(folder, &disk); err != nil {
		return 0, fmt.Errorf("asking how much room is left for %s: %w", folder, err)
	}
	blocks := int64(disk.Bavail) // signed on some: below nought when only the system's own reserve is left
	return uint64(max(0, blocks)) * uint64(disk.Bsize), nil
}
