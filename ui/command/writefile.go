package command

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"duskhand/checklist/durable"
)

// vacant returns an error if a file must not be written at path.
func vacant(path string, force bool) error {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fmt.Errorf("looking at %s: %w", path, err)
	case info.IsDir():
		return fmt.Errorf("%s is a folder; give the path of a file", path)
	case !force:
		return fmt.Errorf("%s is there already and was left alone; give another path, or --force to write over it", path)
	}
	return nil
}

// writeFile puts data at path as a whole or not at all: into a file beside it that is brought to disk and
// then renamed. Only the owner may read it, since it says where a telescope stands and may name a program
// to start. Where path is a symbolic link the file behind it is written.
func writeFile(path string, data []byte, force bool) (err error) {
	if behind, err := filepath.EvalSymlinks(path); err == nil && force {
		path = behind
	}
	folder := filepath.Dir(path)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return fmt.Errorf("making the folder of the file: %w", err)
	}
	temporary, err := os.CreateTemp(folder, ".new-*") // mode 0600
	if err != nil {
		return fmt.Errorf("writing the file: %w", err)
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, ignoreMissing(os.Remove(temporary.Name())))
		}
	}()
	if err := fillFile(temporary, data); err != nil {
		return fmt.Errorf("writing the file: %w", err)
	}
	if err := vacant(path, force); err != nil { // again: answering questions takes time
		return err
	}
	if err := os.Rename(temporary.Name(), path); err != nil {
		return fmt.Errorf("writing the file: %w", err)
	}
	return durable.Names(folder)
}

func fillFile(file *os.File, data []byte) error {
	_, err := file.Write(data)
	return errors.Join(err, file.Sync(), file.Close())
}

func ignoreMissing(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}
