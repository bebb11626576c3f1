package watch

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"syscall"
)

// gone tells that a file or folder is not there.
func gone(err error) bool { return errors.Is(err, fs.ErrNotExist) }

// cannotRead says what is wrong with a folder, once until it changes. A folder inside that has just been
// deleted is nothing wrong.
func (w *watch) cannotRead(folder string, err error) {
	if gone(err) && !slices.Contains(w.Folders, folder) {
		return
	}
	text := folderWords(folder, err)
	if w.troubles[folder] == text {
		return
	}
	w.troubles[folder] = text
	w.say(Report{Trouble: &Trouble{Folder: folder, At: w.Now(), Text: text}})
}

func (w *watch) canRead(folder string) {
	if _, bad := w.troubles[folder]; !bad {
		return
	}
	delete(w.troubles, folder)
	w.say(Report{Trouble: &Trouble{Folder: folder, At: w.Now(), Over: true, Text: fmt.Sprintf("the folder %s can be read again", folder)}})
}

// forgetTroubles drops those of folders inside that are no more: there is nobody to say that they are over.
func (w *watch) forgetTroubles() {
	for folder := range w.troubles {
		if _, err := os.Lstat(folder); gone(err) && !slices.Contains(w.Folders, folder) {
			delete(w.troubles, folder)
		}
	}
}

func folderWords(folder string, err error) string {
	switch {
	case gone(err):
		return fmt.Sprintf("the folder %s is missing; connect the share that it is on, or give the right folder in watch.folders of the kit", folder)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Sprintf("the folder %s may not be read; give yourself the right to read it", folder)
	case errors.Is(err, syscall.ENOTDIR):
		return fmt.Sprintf("%s is a file; give the folder that the subs arrive in", folder)
	}
	return fmt.Sprintf("the folder %s can't be read (%v); see whether its share or disk is still connected", folder, err)
}
