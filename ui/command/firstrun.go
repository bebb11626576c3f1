package command

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"duskhand/plan/kit"
	"duskhand/ui"
	"duskhand/ui/form"
	"duskhand/ui/keys"
)

// firstRun is how the screens make a kit of one's own while they show the example, nil when there is no home
// to keep it in.
func (p Program) firstRun(asked screensAsked) *ui.NewKit {
	path, typed := p.newKitPath(), p.typedPath()
	if path == "" {
		return nil
	}
	return &ui.NewKit{Config: form.Config{
		Path: path,
		Zone: machineZone(p.Env("TZ"), "/etc"),
		Now:  p.Clock.Now,
		Write: func(answers map[string]string) (string, error) {
			if err := writeNewKit(path, answers); err != nil {
				return "", err
			}
			// What stays behind if this fails does no harm: it shows only where there is no kit.
			_ = os.Remove(typed)
			return path, nil
		},
		Keep:  func(answers map[string]string) error { return keepTyped(typed, answers) },
		Typed: func() (map[string]string, error) { return readTyped(typed) },
	}, Open: func(path string) (ui.Config, error) {
		asked.at, asked.speed = "", "" // those were for the example
		return p.screensConfig(path, asked)
	}}
}

// writeNewKit makes a kit file of the answers, and never over an old one.
func writeNewKit(path string, answers map[string]string) error {
	data, err := kit.Template(answers, keys.KitRows()...)
	if err != nil {
		return err
	}
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		if err != nil {
			return fmt.Errorf("looking at %s: %w", path, err)
		}
		return fmt.Errorf("%s is there already and was left alone; leave and start duskhand again, and it will be used", path)
	}
	return writeFile(path, data, false)
}

// machineZone returns the time zone of this computer by its IANA name, "" if it has none of a place: UTC is
// what computers are set to whose place nobody has told them. etc is the folder that holds the settings.
//
// Source: the variable TZ by POSIX (Base Definitions, 8.3), whose leading colon means a file of the zone
// table; a link at localtime or a name in timezone, by the custom of systems today.
func machineZone(variable, etc string) string {
	candidates := []string{strings.TrimPrefix(variable, ":")}
	if target, err := os.Readlink(filepath.Join(etc, "localtime")); err == nil {
		candidates = append(candidates, target)
	}
	if text, err := os.ReadFile(filepath.Join(etc, "timezone")); err == nil {
		candidates = append(candidates, strings.TrimSpace(string(text)))
	}
	for _, candidate := range candidates {
		if _, name, found := strings.Cut(filepath.ToSlash(candidate), "zoneinfo/"); found {
			candidate = name
		}
		if isZoneOfAPlace(candidate) {
			return candidate
		}
	}
	return ""
}

func isZoneOfAPlace(name string) bool {
	if !strings.Contains(name, "/") || strings.HasPrefix(name, "Etc/") || strings.HasPrefix(name, "/") {
		return false
	}
	_, err := time.LoadLocation(name)
	return err == nil
}
