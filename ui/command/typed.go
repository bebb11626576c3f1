package command

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// What is typed into the form of a new kit is kept in a file of its own until the kit is written: a JSON
// object of the texts by the names of the fields.

// keepTyped puts what is typed into the file, in place of what was there.
func keepTyped(path string, typed map[string]string) error {
	data, err := json.MarshalIndent(typed, "", "  ")
	if err != nil {
		return fmt.Errorf("keeping what is typed: %w", err)
	}
	if err := writeFile(path, data, true); err != nil {
		return fmt.Errorf("what is typed can't be kept: %w", err)
	}
	return nil
}

// readTyped returns what was typed another time. A file that can't be understood is set aside, as it is; where
// it stays in its place nil is returned beside the error.
func readTyped(path string) (map[string]string, error) {
	data, err := readSettings(path)
	if errors.Is(err, fs.ErrNotExist) {
		return map[string]string{}, nil
	}
	if err != nil {
		return nil, fmt.Errorf("what was typed before can't be read: %w", err)
	}
	var typed map[string]string
	if err := json.Unmarshal(data, &typed); err != nil {
		aside := path + ".unreadable"
		if moved := os.Rename(path, aside); moved != nil {
			return nil, fmt.Errorf("what was typed before can't be understood (%w), nor set aside: %w", err, moved)
		}
		return map[string]string{}, fmt.Errorf("what was typed before can't be understood (%w); the file is at %s now", err, aside)
	}
	if typed == nil { // a JSON null
		typed = map[string]string{}
	}
	return typed, nil
}
