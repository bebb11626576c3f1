//go:build unix

package unwritten

import (
	"io/fs"
	"os"
	"syscall"
)

// ownedByUs tells whether a folder belongs to this user and nobody else may enter it.
func ownedByUs(info fs.FileInfo) bool {
	status, ok := info.Sys().(*syscall.Stat_t)
	return ok && int(status.Uid) == os.Geteuid() && info.Mode().Perm()&0o077 == 0
}
