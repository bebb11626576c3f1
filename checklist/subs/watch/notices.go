package watch

import (
	"errors"
	"fmt"
	"runtime"

	"github.com/fsnotify/fsnotify"
)

// openNotices asks the system for notices of changed files. Without them the walks have to do.
//
// The systems with kqueue open every file in a folder to watch it, a thousand subs a thousand files, so there
// the walks do alone.
func (w *watch) openNotices() {
	if w.PollOnly || runtime.GOOS != "linux" && runtime.GOOS != "windows" {
		return
	}
	notices, err := fsnotify.NewWatcher()
	if err != nil {
		w.deaf(err)
		return
	}
	w.notices = notices
}

// listen asks for notices of one folder, if that is not done yet.
func (w *watch) listen(folder string) {
	if w.notices == nil || w.listening[folder] {
		return
	}
	if err := w.notices.Add(folder); err != nil {
		if !gone(err) && !errors.Is(err, fsnotify.ErrClosed) {
			w.deaf(err)
		}
		return
	}
	w.listening[folder] = true
}

// deaf says, once, that the walks have to do.
func (w *watch) deaf(err error) {
	if w.deafened {
		return
	}
	w.deafened = true
	w.say(Report{Trouble: &Trouble{At: w.Now(), Text: fmt.Sprintf(
		"this computer does not tell of new files in all folders (%v); they are looked through every %v instead", err, w.Poll)}})
}
