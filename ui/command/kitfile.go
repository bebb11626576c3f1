package command

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"duskhand/plan/kit"
	"duskhand/ui/keys"
)

// openKit returns the kit that the person means: of the file that was named, or else the first that is
// found, or else the built-in example, for which path is "".
func (p Program) openKit(named string) (k kit.Kit, path string, err error) {
	path, err = p.findKit(named)
	if err != nil {
		return kit.Kit{}, "", err
	}
	if path == "" {
		return kit.Example(), "", nil
	}
	k, err = readKit(path)
	return k, path, err
}

// findKit returns the path of the kit file that named and the environment point to, "" when there is
// none. A named file must be there.
func (p Program) findKit(named string) (string, error) {
	if named != "" {
		return named, nil
	}
	for _, path := range p.kitPaths() {
		_, err := os.Stat(path)
		if err == nil {
			return path, nil
		}
		if !errors.Is(err, fs.ErrNotExist) {
			return "", fmt.Errorf("looking for a kit file: %w", err)
		}
	}
	return "", nil
}

func readKit(path string) (kit.Kit, error) {
	data, err := readSettings(path)
	if errors.Is(err, fs.ErrNotExist) {
		return kit.Kit{}, fmt.Errorf("there is no kit file %s; make one with: duskhand kit new %s", path, path)
	}
	if err != nil {
		return kit.Kit{}, fmt.Errorf("reading the kit: %w", err)
	}
	k, err := kit.Read(data, path, keys.Check)
	if err != nil || k.Stars.KnownFile == "" {
		return k, err
	}
	return withKnownStars(k, path)
}

// withKnownStars reads the file of the stars that the mount knows, from beside the kit.
func withKnownStars(k kit.Kit, kitPath string) (kit.Kit, error) {
	path := k.Stars.KnownFile
	if !filepath.IsAbs(path) {
		path = filepath.Join(filepath.Dir(kitPath), path)
	}
	data, err := readSettings(path)
	if err == nil && len(data) > kit.LargestFile {
		err = fmt.Errorf("%s is longer than %d bytes", path, kit.LargestFile)
	}
	if err != nil {
		return kit.Kit{}, fmt.Errorf("%s: stars.known_file = %q can't be read: %w", kitPath, k.Stars.KnownFile, err)
	}
	return k.WithKnown(data, path)
}
