package command

import (
	"fmt"
	"io"
	"os"

	"duskhand/plan/kit"
)

// readSettings returns what is in a file that people write: a kit, a checklist. A pipe may never end and a device
// has no end, so only a file is read, and only up to the length that a kit may have and a byte, by which the reader
// of a kit tells that it is too long.
func readSettings(path string) ([]byte, error) {
	info, err := os.Stat(path) // before opening: to open a pipe is to wait for its writer
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is no file but %s; give the path of a file", path, kindOf(info.Mode()))
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close() // only read from
	return io.ReadAll(io.LimitReader(file, kit.LargestFile+1))
}

func kindOf(mode os.FileMode) string {
	switch {
	case mode.IsDir():
		return "a folder"
	case mode&os.ModeNamedPipe != 0:
		return "a pipe"
	case mode&os.ModeSocket != 0:
		return "a socket"
	}
	return "a device"
}
