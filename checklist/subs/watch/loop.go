package watch

import (
	"context"
	"errors"
	"time"

	"github.com/fsnotify/fsnotify"
)

// watch is what the loop knows. Nobody else touches it, but for the settings, which stay as they are.
type watch struct {
	Settings
	notices   *fsnotify.Watcher // nil when only walks are made
	listening map[string]bool   // folders that notices are asked of
	deafened  bool

	walked   map[string]time.Time // when each of Folders was last gone through
	troubles map[string]string    // what was said of folders that can't be read
	pending  map[string]*pending
	told     map[string]told
	byState  map[state]string // path of the frame handed on last in that state

	queue    []job // to be read, in order
	sent     int   // of all, how many went to the workers
	handedOn int   // and how many have come back and been handed on, in order
	finished map[int]done
	unsaid   []Report
}

func newWatch(s Settings) *watch {
	w := &watch{
		Settings: s, listening: map[string]bool{}, walked: map[string]time.Time{}, troubles: map[string]string{},
		pending: map[string]*pending{}, told: map[string]told{}, byState: map[state]string{}, finished: map[int]done{},
	}
	for _, f := range s.Known {
		at := state{f.Size, f.Changed.UnixNano()}
		w.told[f.Path] = told{state: at, walks: walksAfter}
		w.byState[at] = f.Path
	}
	return w
}

func (w *watch) say(r Report) { w.unsaid = append(w.unsaid, r) }

// run is the loop. It sleeps until something happens; the timer of the looks runs only while a file is
// awaited.
func (w *watch) run(ctx context.Context, reports chan<- Report) {
	defer close(reports)
	jobs, results := make(chan job), make(chan done)
	wait := w.startWorkers(ctx, jobs, results)
	defer wait()
	defer close(jobs)
	w.openNotices()
	events, failures, stop := w.hear()
	defer stop()

	w.walk()
	poll, look := w.After(w.Poll), (<-chan time.Time)(nil)
	for {
		if look == nil && len(w.pending) > 0 {
			look = w.After(w.Settle)
		}
		send, next := w.sending(jobs)
		say, first := w.saying(reports)
		select {
		case <-ctx.Done():
			return
		case <-poll:
			w.walk()
			poll = w.After(w.Poll)
		case <-look:
			look = nil
			w.lookAtPending()
		case send <- next:
			w.queue = w.queue[1:]
			w.sent++
		case say <- first:
			w.unsaid[0] = Report{} // what was measured is the taker's to keep
			w.unsaid = w.unsaid[1:]
		case d := <-results:
			w.finish(d)
		case e := <-events:
			w.heed(e)
		case err := <-failures:
			w.missed(err)
		}
	}
}

// sending returns the next job and where to send it, nil when none may be sent.
func (w *watch) sending(jobs chan<- job) (chan<- job, job) {
	if !w.mayRead() {
		return nil, job{}
	}
	next := w.queue[0]
	next.number = w.sent
	return jobs, next
}

// saying returns the next report and where to send it, nil when there is none.
func (w *watch) saying(reports chan<- Report) (chan<- Report, Report) {
	if len(w.unsaid) == 0 {
		return nil, Report{}
	}
	return reports, w.unsaid[0]
}

// hear returns the system's notices, and what ends them.
func (w *watch) hear() (<-chan fsnotify.Event, <-chan error, func()) {
	if w.notices == nil {
		return nil, nil, func() {}
	}
	// Closing only gives back what the system lent; there is nothing to be done if it fails.
	return w.notices.Events, w.notices.Errors, func() { _ = w.notices.Close() }
}

// missed makes good for notices that were lost.
func (w *watch) missed(err error) {
	if !errors.Is(err, fsnotify.ErrEventOverflow) {
		w.deaf(err)
	}
	w.walk()
}
