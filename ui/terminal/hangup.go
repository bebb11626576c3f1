// Package terminal has the program leave in order when its terminal goes.
package terminal

import (
	"io"
	"os"
	"os/signal"

	tea "github.com/charmbracelet/bubbletea"
)

// heard is the terminal's input with an ear for its end: a terminal that is closed gives nothing more to read, and
// a program that went on would hold the journal for nobody.
type heard struct {
	*os.File
	ended func()
}

// Read reads the file. An error is its end: nothing but a terminal that is gone makes one.
func (h heard) Read(p []byte) (int, error) {
	n, err := h.File.Read(p)
	if err != nil {
		h.ended()
	}
	return n, err
}

// LeaveWith has the program leave in order when its terminal goes: by the signal that tells of it, and, where
// that is ignored, by the end of what can be read. stop takes the ear for the signal away.
func LeaveWith(in io.Reader, quit func()) (input io.Reader, stop func()) {
	hangups := make(chan os.Signal, 1)
	if wanted := hangupSignals(); len(wanted) > 0 {
		signal.Notify(hangups, wanted...)
	}
	over := make(chan struct{})
	go func() {
		select {
		case <-hangups:
			quit()
		case <-over:
		}
	}()
	stop = func() { signal.Stop(hangups); close(over) }
	if file, isFile := in.(*os.File); isFile && hearsEnd {
		return heard{file, quit}, stop
	}
	return in, stop
}

// Quitter asks a program that will exist by then to quit, without waiting for it.
type Quitter struct{ Program *tea.Program }

// Quit asks it.
func (q *Quitter) Quit() { go q.Program.Quit() }
