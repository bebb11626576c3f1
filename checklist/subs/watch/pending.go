package watch

import (
	"errors"
	"io/fs"
	"os"
	"time"

	"duskhand/checklist/subs/arrival"
)

// state is a file's size and time. Two looks that give the same state take it for unchanged.
type state struct {
	size, changedNs int64
}

func stateOf(info fs.FileInfo) state { return state{info.Size(), info.ModTime().UnixNano()} }

func (s state) file(path string) arrival.File {
	return arrival.File{Path: path, Size: s.size, Changed: time.Unix(0, s.changedNs).UTC()}
}

// pending is a file that may still be growing.
type pending struct {
	class   class
	already bool
	tries   int // readings that have failed

	at      state
	steady  int           // timed looks at which it was so
	seen    time.Time     // when it was first seen so; zero before the first look
	late    time.Duration // it was not so longer than this before
	looked  time.Time     // at it, or for it, last; zero if never
	noticed time.Time     // when the system told of a change last; zero if never
}

// look notes a state and tells whether the file has stopped growing. Only looks that the timer made count,
// since those alone lie a known time apart.
func (p *pending) look(at state, now time.Time, timed bool) (ready bool) {
	if p.seen.IsZero() || at != p.at {
		p.at, p.steady = at, 0
		if !p.seen.IsZero() {
			p.tries = 0
		}
		p.seen, p.late = now, max(0, now.Sub(p.looked))
		if p.noticed.After(p.looked) { // the last notice came when it became so
			p.seen, p.late = p.noticed, 0
		}
	}
	p.looked = now
	if timed {
		p.steady++
	}
	return p.steady >= 2+3*p.tries
}

// touch notes that the system told of a change of a file.
func (w *watch) touch(path string, what class, now time.Time) {
	p, known := w.pending[path]
	if !known {
		p = &pending{class: what}
		w.pending[path] = p
	}
	p.noticed = now
}

// lookAtPending looks at all that may be growing, and queues what has stopped.
func (w *watch) lookAtPending() {
	now := w.Now()
	var ready []job
	for path, p := range w.pending {
		info, err := os.Stat(path)
		switch {
		case errors.Is(err, fs.ErrNotExist), err == nil && !worthALook(info):
			delete(w.pending, path) // if it comes back, or gets contents, a notice or a walk will tell
			continue
		case err != nil:
			continue // a share that is away; the walks say so
		}
		if !p.look(stateOf(info), now, true) {
			continue
		}
		delete(w.pending, path)
		if w.told[path].state != p.at {
			ready = append(ready, job{path: path, pending: *p})
		}
	}
	w.enqueue(ready)
}

// worthALook leaves out what is no file, and empty files, which somebody has only begun.
func worthALook(info fs.FileInfo) bool { return info.Mode().IsRegular() && info.Size() > 0 }
