package page

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"
	"unicode"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/ui/theme"
)

// Save writes the page for the dark and the one for paper into a folder, which is made if it is missing, and
// returns their paths. Their names begin with the night, the time and the target, and never take the place
// of another file.
//
// Error: the folder or a file can't be written.
func Save(folder string, k kit.Kit, date plan.Date, now time.Time, night Night) (paths []string, err error) {
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return nil, fmt.Errorf("making the folder of the pages: %w", err)
	}
	for _, ink := range []theme.Ink{theme.DarkInk(), theme.PrintInk()} {
		var page bytes.Buffer
		if err := Write(&page, ink, k, date, []Night{night}); err != nil {
			return paths, err
		}
		name := fmt.Sprintf("%s-%s-%s-%s", date, now.In(k.Site.Zone).Format("150405"), fileName(night.Told.Target.Name), ink.Name)
		path, err := writeFree(filepath.Join(folder, name), page.Bytes())
		if err != nil {
			return paths, fmt.Errorf("writing the page: %w", err)
		}
		paths = append(paths, path)
	}
	return paths, nil
}

// writeFree writes a picture under the name, or under one with a number behind it where that is taken: by the page that
// was saved in the same second.
func writeFree(name string, data []byte) (path string, err error) {
	const most = 100
	path = name + ".svg"
	for n := 2; n <= most; n++ {
		if err = writeNew(path, data); !errors.Is(err, os.ErrExist) {
			return path, err
		}
		path = fmt.Sprintf("%s-%d.svg", name, n)
	}
	return path, err
}

// writeNew writes a file that is not there yet.
func writeNew(path string, data []byte) error {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = file.Write(data)
	return errors.Join(err, file.Sync(), file.Close())
}

// fileName makes a name of letters and digits of any name.
func fileName(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	if len(words) == 0 {
		return "target"
	}
	return strings.Join(words, "-")
}
