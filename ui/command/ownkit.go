package command

import (
	"crypto/sha256"
	"fmt"
	"os"

	"duskhand/plan/kit"
	"duskhand/ui"
	"duskhand/ui/form"
	"duskhand/ui/keys"
)

// ownKit is how the screens change the kit at path, nil when there is no home to keep in what is typed. Its file is
// read again before it is written, so that what an editor wrote meanwhile stays.
func (p Program) ownKit(path string, asked screensAsked) *ui.NewKit {
	sum := sha256.Sum256([]byte(path))
	typed := p.stateFile(fmt.Sprintf("changed-%x.json", sum[:4]))
	if typed == "" {
		return nil
	}
	return &ui.NewKit{Config: form.Config{
		Path:  path,
		Now:   p.Clock.Now,
		Old:   func() (map[string]string, []string, error) { return readOld(path) },
		Write: func(changed map[string]string) (string, error) { return path, rewriteKit(path, typed, changed) },
		Keep:  func(changed map[string]string) error { return keepTyped(typed, changed) },
		Typed: func() (map[string]string, error) { return readTyped(typed) },
	}, Open: func(string) (ui.Config, error) { return p.screensConfig(path, asked) }}
}

// readOld returns the answers of a kit file, and what else it holds.
func readOld(path string) (answers map[string]string, besides []string, err error) {
	data, err := readSettings(path)
	if err != nil {
		return nil, nil, fmt.Errorf("reading the kit: %w", err)
	}
	if answers, err = kit.Typed(data); err != nil {
		return nil, nil, err
	}
	besides, err = kit.Besides(data)
	return answers, besides, err
}

// rewriteKit writes what is changed into the kit file, which must be a kit in order afterwards, and forgets what was
// kept of the typing.
func rewriteKit(path, typed string, changed map[string]string) error {
	data, err := readSettings(path)
	if err != nil {
		return fmt.Errorf("reading the kit: %w", err)
	}
	if data, err = kit.Revise(data, path, changed, keys.Check); err != nil {
		return err
	}
	if err := writeFile(path, data, true); err != nil {
		return err
	}
	_ = os.Remove(typed) // what stays behind shows as changed the next time, and is what the file has
	return nil
}
