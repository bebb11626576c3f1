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
	block := disk.Frsize // what the blocks are counted in, see statvfs(3)
	if block <= 0 {
		block = disk.Bsize
	}
	return disk.Bavail * uint64(block), nil
}
