//go:build !linux && !darwin && !freebsd && !dragonfly && !windows

package watch

import "errors"

// FreeBytes returns errors.ErrUnsupported: this system's way of asking is not known here.
func FreeBytes(string) (uint64, error) { return 0, errors.ErrUnsupported }
