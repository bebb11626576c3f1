package watch

import (
	"cmp"
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"sync"

	"duskhand/checklist/subs/arrival"
)

// tried is how often a frame that can't be read is read again before that is said: its writer may hold it, or
// the system may show its full size before its contents.
const tried = 3

// mostUnsaid is how many reports may wait to be taken before reading pauses.
const mostUnsaid = 16

// job is a file to read.
type job struct {
	pending
	path   string
	was    string // where it was handed on from before; "" if it was not
	number int    // in the order of handing on
}

// done is a job that a worker has finished.
type done struct {
	job
	look Look
	err  error
	is   state // the file after the reading
	gone bool  // it was not there any more
}

// enqueue takes up files that have stopped growing, oldest first.
func (w *watch) enqueue(ready []job) {
	slices.SortFunc(ready, func(a, b job) int {
		return cmp.Or(cmp.Compare(a.at.changedNs, b.at.changedNs), cmp.Compare(a.path, b.path))
	})
	for _, j := range ready {
		if earlier, same := w.byState[j.at]; same && earlier != j.path {
			if _, err := os.Lstat(earlier); gone(err) {
				j.was = earlier
			}
		}
		w.told[j.path] = told{state: j.at, walks: walksAfter}
		w.queue = append(w.queue, j)
	}
}

// mayRead tells whether another frame can be given to the workers: they may not run far ahead of one that is
// slow, nor of the reports' taker, since what they have measured has to be kept.
func (w *watch) mayRead() bool {
	return len(w.queue) > 0 && w.sent-w.handedOn < 2*w.Workers && len(w.unsaid) < mostUnsaid
}

// finish takes a result, and hands on those whose turn it is.
func (w *watch) finish(d done) {
	w.finished[d.number] = d
	for {
		next, ok := w.finished[w.handedOn]
		if !ok {
			return
		}
		delete(w.finished, w.handedOn)
		w.handedOn++
		w.handOn(next)
	}
}

// handOn reports a frame, or waits again for one that has changed meanwhile or can't be read yet.
func (w *watch) handOn(d done) {
	switch {
	case d.gone:
		delete(w.told, d.path)
		return
	case d.is != d.at:
		d.steady = 0
		w.again(d)
		return
	case d.err != nil && d.tries < tried:
		d.tries++
		w.again(d)
		return
	}
	w.byState[d.at] = d.path
	frame := arrival.Frame{File: d.at.file(d.path), Was: d.was, Seen: d.seen, Late: d.late, Already: d.already,
		Header: d.look.Header, Measured: d.look.Measured, Remarks: d.look.Remarks,
		Placed: d.look.Placed, Unplaced: d.look.Unplaced}
	switch {
	case d.class.unread != "":
		frame.Unread = filepath.Base(d.path) + " " + d.class.unread
	case d.err != nil:
		frame.Unread = d.err.Error()
	}
	w.say(Report{Frame: &frame})
}

func (w *watch) again(d done) {
	delete(w.told, d.path)
	p := d.pending
	p.steady = 0
	w.pending[d.path] = &p
}

// startWorkers starts those who read. They end when jobs is closed; wait returns when they have.
func (w *watch) startWorkers(ctx context.Context, jobs <-chan job, results chan<- done) (wait func()) {
	var workers sync.WaitGroup
	for range w.Workers {
		workers.Go(func() {
			for j := range jobs {
				select {
				case results <- w.read(ctx, j):
				case <-ctx.Done():
					return
				}
			}
		})
	}
	return workers.Wait
}

func (w *watch) read(ctx context.Context, j job) done {
	d := done{job: j}
	if j.class.unread == "" {
		d.look, d.err = w.Read(ctx, j.path, j.already)
	}
	info, err := os.Stat(j.path)
	switch {
	case gone(err):
		d.gone = true
	case err != nil:
		d.is, d.err = j.at, errors.Join(d.err, err)
	default:
		d.is = stateOf(info)
	}
	return d
}
