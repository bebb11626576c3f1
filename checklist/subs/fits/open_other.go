//go:build !windows

package fits

import "os"

// open opens a file for reading; others may do with it what they like.
func open(path string) (*os.File, error) { return os.Open(path) }
