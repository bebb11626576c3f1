// Package durable brings files and their names to the disk, so that they outlast a loss of power.
package durable

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"runtime"
	"syscall"
)

// File brings what was written to a file to the disk.
func File(path string) error {
	// Windows flushes only what is open for writing; elsewhere that is not needed, and may not be allowed.
	file, err := os.OpenFile(path, os.O_RDWR, 0)
	if errors.Is(err, fs.ErrPermission) {
		file, err = os.Open(path)
	}
	if err != nil {
		return err
	}
	return errors.Join(file.Sync(), file.Close())
}

// Names brings the names in a folder to the disk: of files that were made, renamed or removed there. Where the
// system can't be asked to, as on Windows and on some shared folders, they are as safe as it makes them.
func Names(folder string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	dir, err := os.Open(folder)
	if err != nil {
		return fmt.Errorf("bringing the names in %s to the disk: %w", folder, err)
	}
	err = dir.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		err = nil
	}
	return errors.Join(err, dir.Close())
}
