package unwritten

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"duskhand/checklist/durable"
)

// The folder of a file begins with folderName, to which chance adds; the file has the same name in each.
const folderName, fileName = "duskhand-unwritten-", "events.json"

// places are where such folders may lie, in the order in which they are tried: the journal's own folder, which
// outlasts a restart of the computer, then that of temporary files, which may not.
func places(journalPath string) []string {
	return []string{filepath.Dir(journalPath), os.TempDir()}
}

// Keep puts a file to the disk, synced, in a new folder that nobody else can read, and returns its path.
//
// Error: it could be put nowhere.
func Keep(f File) (path string, err error) {
	content, err := f.encode()
	if err != nil {
		return "", err
	}
	var faults []error
	for _, place := range places(f.Journal) {
		if path, err = keepIn(place, content); err == nil {
			return path, nil
		}
		faults = append(faults, err)
	}
	return "", errors.Join(faults...)
}

func keepIn(place string, content []byte) (path string, err error) {
	folder, err := os.MkdirTemp(place, folderName) // 0700, and no other file or link may have the name
	if err != nil {
		return "", err
	}
	path = filepath.Join(folder, fileName)
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err == nil {
		_, err = file.Write(content)
		err = errors.Join(err, file.Sync(), file.Close(), durable.Names(folder), durable.Names(place))
	}
	if err != nil {
		return "", errors.Join(err, os.RemoveAll(folder))
	}
	return path, nil
}

// Waiting returns the files that wait for the journal at a path, the oldest first. What another user of the computer
// has put there is passed over, and so is what belongs to another journal.
//
// Error: of files that should be taken in and can't be read; the others are returned all the same.
func Waiting(journalPath string) (files []File, err error) {
	var faults []error
	for _, place := range places(journalPath) {
		found, err := os.ReadDir(place)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			faults = append(faults, err)
		}
		for _, entry := range found {
			folder := filepath.Join(place, entry.Name())
			if matched, _ := filepath.Match(folderName+"*", entry.Name()); !matched || !ours(folder) {
				continue
			}
			f, err := Read(filepath.Join(folder, fileName))
			switch {
			case errors.Is(err, fs.ErrNotExist): // being written, or taken in by another program
			case err != nil:
				faults = append(faults, err)
			case f.Journal == journalPath:
				files = append(files, f)
			}
		}
	}
	slices.SortFunc(files, func(a, b File) int { return a.Kept.Compare(b.Kept) })
	return files, errors.Join(faults...)
}

// ours tells whether a path is a folder, and no link to one, that this user alone can write to.
func ours(folder string) bool {
	info, err := os.Lstat(folder)
	return err == nil && info.IsDir() && ownedByUs(info)
}

// remove removes a file that has been taken in, with its folder.
func (f File) remove() error {
	if err := errors.Join(os.Remove(f.Path), os.Remove(filepath.Dir(f.Path))); err != nil {
		return fmt.Errorf("it is all in the journal, but can't be removed: %w", err)
	}
	return nil
}
