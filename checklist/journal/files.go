package journal

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"time"
)

// stamp is t as part of a file name, UTC.
func stamp(t time.Time) string { return t.UTC().Format("20060102T150405Z") }

// freeName returns path, or path with the first number behind it that no file has yet.
func freeName(path string) string {
	name := path
	for n := 2; ; n++ {
		if _, err := os.Lstat(name); errors.Is(err, fs.ErrNotExist) {
			return name
		}
		name = fmt.Sprintf("%s-%d", path, n)
	}
}

// fileSize returns the size of the file in bytes, 0 if there is none.
func fileSize(path string) (int64, error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return 0, nil
	}
	if err != nil {
		return 0, err
	}
	return info.Size(), nil
}

// copyAside copies the file and its write-ahead log as "journal" into a new folder, in the journal's
// own folder or, if that is full, in the system's.
func copyAside(path string) (folder string, err error) {
	for _, parent := range []string{filepath.Dir(path), os.TempDir()} {
		if folder, err = os.MkdirTemp(parent, "check-"); err != nil {
			continue
		}
		err = errors.Join(copyFile(path, filepath.Join(folder, "journal")),
			copyFile(path+"-wal", filepath.Join(folder, "journal-wal")))
		if err == nil {
			return folder, nil
		}
		err = errors.Join(err, os.RemoveAll(folder))
	}
	return "", fmt.Errorf("copying the journal to check it: %w", err)
}

func copyFile(from, to string) error {
	source, err := os.Open(from)
	if err != nil {
		return err
	}
	defer source.Close() // only read
	target, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(target, source)
	return errors.Join(err, target.Close())
}

// linked tells whether a name beside the journal stands for something that is no file of its own: a link, through
// which we would read and write what is somebody else's.
func linked(path string) bool {
	info, err := os.Lstat(path)
	return err == nil && !info.Mode().IsRegular()
}

// openOwn opens a file beside the journal for reading and writing, and makes it if it is not there. A link in its
// place is removed first, never followed.
func openOwn(path string) (*os.File, error) {
	if !linked(path) {
		return os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	}
	if err := os.Remove(path); err != nil {
		return nil, err
	}
	return os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
}

// exposed says that others can write into the folder of the journal; "" if they can't, or if the system has no such
// modes.
func exposed(folder string) string {
	info, err := os.Stat(folder)
	if err != nil || runtime.GOOS == "windows" || info.Mode().Perm()&0o022 == 0 {
		return ""
	}
	return fmt.Sprintf("Other users of this computer can write into the journal's folder (%s has mode %04o), and so remove or replace it; "+
		"close it to them with: chmod 700 %[1]s", folder, info.Mode().Perm())
}

// renameIfThere renames a file that may be missing.
func renameIfThere(from, to string) error {
	if err := os.Rename(from, to); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}
