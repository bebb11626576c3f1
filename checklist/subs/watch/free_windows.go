package watch

import (
	"fmt"

	"golang.org/x/sys/windows"
)

// FreeBytes returns how many bytes the user may still write to the disk that a folder is on.
func FreeBytes(folder string) (uint64, error) {
	name, err := windows.UTF16PtrFromString(folder)
	if err != nil {
		return 0, fmt.Errorf("asking how much room is left for %q: %w", folder, err)
	}
	var free uint64
	if err := windows.GetDiskFreeSpaceEx(name, &free, nil, nil); err != nil {
		return 0, fmt.Errorf("asking how much room is left for %s: %w", folder, err)
	}
	return free, nil
}
