package watch

import (
	"os"
	"path/filepath"
	"slices"
	"time"

	"github.com/fsnotify/fsnotify"
)

// told is a file that needs no more telling, unless it changes.
type told struct {
	state state
	walks int // in which it is still looked at; after that, only a notice makes one look
}

// walksAfter is for how many walks a file that was handed on is looked at for changes, some minutes at the
// usual pace. Looking at every file of a season at each walk would keep a share busy for nothing.
const walksAfter = 60

// walk goes through all folders for what the system did not tell of.
func (w *watch) walk() {
	w.listening = map[string]bool{}
	if w.notices != nil {
		for _, folder := range w.notices.WatchList() {
			w.listening[folder] = true
		}
	}
	for _, folder := range w.Folders {
		round := round{at: w.Now(), already: w.walked[folder].IsZero(), before: w.walked[folder]}
		if w.walkFolder(folder, round) {
			w.walked[folder] = round.at
		}
	}
	w.forgetTroubles()
}

// round is one walk through one of the folders.
type round struct {
	at      time.Time
	already bool      // it is the first: what it finds was there when the watch began
	before  time.Time // the walk before it
}

// walkFolder looks through a folder and those in it. ok is false when it can't be read.
func (w *watch) walkFolder(folder string, r round) (ok bool) {
	w.listen(folder) // before reading it, so that nothing falls between
	entries, err := os.ReadDir(folder)
	if err != nil {
		w.cannotRead(folder, err)
	} else {
		w.canRead(folder)
	}
	for _, entry := range entries {
		path := filepath.Join(folder, entry.Name())
		switch {
		case entry.IsDir():
			if !Skipped(entry.Name()) {
				w.walkFolder(path, r)
			}
		case classOf(path).frame:
			w.meet(path, r)
		}
	}
	return err == nil
}

// meet looks at a frame that a walk found, and takes it up if it is not known as it is.
func (w *watch) meet(path string, r round) {
	known, isKnown := w.told[path]
	if _, waiting := w.pending[path]; waiting || isKnown && known.walks == 0 {
		return
	}
	info, err := os.Stat(path)
	if err != nil || !worthALook(info) {
		return
	}
	at := stateOf(info)
	switch {
	case isKnown && known.state == at:
		known.walks--
		w.told[path] = known
	case r.already && !isKnown && info.ModTime().Before(w.Since):
		w.told[path] = told{state: at}
	default:
		p := &pending{class: classOf(path), already: r.already, looked: r.before}
		p.look(at, r.at, false)
		w.pending[path] = p
	}
}

// heed takes up a notice of the system.
func (w *watch) heed(e fsnotify.Event) {
	now := w.Now()
	switch {
	case e.Has(fsnotify.Remove), e.Has(fsnotify.Rename):
		if slices.Contains(w.Folders, filepath.Clean(e.Name)) {
			w.walk()
		}
	case e.Has(fsnotify.Create), e.Has(fsnotify.Write):
		if what := classOf(e.Name); what.frame {
			w.touch(e.Name, what, now)
			return
		}
		if !e.Has(fsnotify.Create) || Skipped(filepath.Base(e.Name)) {
			return
		}
		if info, err := os.Lstat(e.Name); err == nil && info.IsDir() {
			w.walkFolder(e.Name, round{at: now, before: now})
		}
	}
}
