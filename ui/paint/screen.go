// Package paint puts the picture on the terminal when it changes, and not by a clock: the library's renderer looks for
// changes many times a second, which keeps a computer awake all night for digits that change once a second.
//
// The library still opens and closes the terminal, and writes a blank picture of its own when it opens it, when its size
// changes and when the program comes back: what it writes is told from what is painted, and painted over.
package paint

import (
	"bytes"
	"os"
	"strings"
	"sync"

	"github.com/charmbracelet/x/ansi"
)

// Screen is the terminal as the library's output. What the library writes passes through it.
type Screen struct {
	file   *os.File // not embedded: it has ways to be written to that would pass by Write
	mutex  sync.Mutex
	open   bool // the program's own screen is shown, and not the shell's
	width  int
	height int
	lines  []string // as painted last
}

// On returns the terminal behind a file as a screen.
func On(file *os.File) *Screen { return &Screen{file: file} }

// Read reads the file. With Close and Fd it makes the screen a terminal to the library.
func (s *Screen) Read(p []byte) (int, error) { return s.file.Read(p) }

// Close closes the file.
func (s *Screen) Close() error { return s.file.Close() }

// Fd returns the file's descriptor.
func (s *Screen) Fd() uintptr { return s.file.Fd() }

// Write writes what the library has to say to the terminal, and paints over it what it may have spoilt.
func (s *Screen) Write(p []byte) (int, error) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	n, err := s.file.Write(p)
	opens, closes := bytes.LastIndex(p, []byte(ansi.SetModeAltScreenSaveCursor)), bytes.LastIndex(p, []byte(ansi.ResetModeAltScreenSaveCursor))
	if opens != closes {
		s.open = opens > closes
	}
	if err == nil && s.open {
		err = s.put(s.lines, nil)
	}
	return n, err
}

// Paint shows a picture of lines in a window of a size: what differs from the last, or all of it if the size does.
func (s *Screen) Paint(picture string, width, height int) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	lines := strings.Split(picture, "\n")
	if over := len(lines) - height; over > 0 {
		lines = lines[over:]
	}
	was := s.lines
	if s.width != width || s.height != height {
		was = nil
	}
	s.lines, s.width, s.height = lines, width, height
	if s.open {
		_ = s.put(lines, was) // a terminal that is gone is noticed by who reads from it
	}
}

// put writes the lines that are not as they were.
func (s *Screen) put(lines, was []string) error {
	var out bytes.Buffer
	for i, line := range lines {
		if i < len(was) && was[i] == line {
			continue
		}
		line = ansi.Truncate(line, s.width, "")
		out.WriteString(ansi.CursorPosition(1, i+1))
		out.WriteString(line)
		if ansi.StringWidth(line) < s.width { // at the end of a full line it would take its last cell
			out.WriteString(ansi.EraseLineRight)
		}
	}
	if len(lines) < s.height && len(lines) != len(was) && len(lines) > 0 {
		out.WriteString(ansi.CursorPosition(1, len(lines)+1))
		out.WriteString(ansi.EraseScreenBelow)
	}
	if out.Len() == 0 {
		return nil
	}
	_, err := s.file.Write(out.Bytes())
	return err
}
