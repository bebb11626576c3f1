package journal

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"time"

	"duskhand/checklist/durable"
)

// backupsKept is how many backup copies stay.
const backupsKept = 10

// Backup writes a compact copy of the journal into the folder "backups" beside it, keeps the last ten
// and returns the name of the new one. A journal in memory has none.
func (j *Journal) Backup() (path string, err error) {
	if j.insert == nil {
		return "", ErrReader
	}
	if j.path == "" {
		return "", nil
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	folder := filepath.Join(filepath.Dir(j.path), "backups")
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", fmt.Errorf("backing up the journal: %w", err)
	}
	path = freeName(filepath.Join(folder, filepath.Base(j.path)+"."+stamp(j.now())))
	if err := copyInto(j.db, path); err != nil {
		return "", fmt.Errorf("backing up the journal: %w", err)
	}
	if err := prune(filepath.Join(folder, filepath.Base(j.path)+".*Z*")); err != nil {
		return path, fmt.Errorf("removing the oldest backup copy: %w", err)
	}
	return path, nil
}

// NewestBackup returns when the newest backup copy was made; ok is false if there is none.
func (j *Journal) NewestBackup() (at time.Time, ok bool) {
	copies, err := filepath.Glob(filepath.Join(filepath.Dir(j.path), "backups", filepath.Base(j.path)+".*Z*"))
	if err != nil || j.path == "" {
		return time.Time{}, false
	}
	for _, name := range copies {
		if info, err := os.Stat(name); err == nil && info.ModTime().After(at) {
			at, ok = info.ModTime(), true
		}
	}
	return at, ok
}

// copyInto writes a compact copy of the database, which has its final name only once it is whole.
func copyInto(db *sql.DB, path string) error {
	part := path + ".part"
	if err := os.RemoveAll(part); err != nil {
		return err
	}
	if _, err := db.Exec(`VACUUM INTO ` + quoted(part)); err != nil {
		return errors.Join(err, os.RemoveAll(part))
	}
	if err := errors.Join(durable.File(part), os.Rename(part, path)); err != nil {
		return err
	}
	return durable.Names(filepath.Dir(path))
}

// prune removes all but the newest copies; their names sort by time.
func prune(pattern string) error {
	copies, err := filepath.Glob(pattern)
	if err != nil {
		return err
	}
	slices.Sort(copies)
	var faults []error
	for _, old := range copies[:max(0, len(copies)-backupsKept)] {
		faults = append(faults, os.Remove(old))
	}
	return errors.Join(faults...)
}
