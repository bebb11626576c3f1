package command

import (
	"io"
	"os"

	"github.com/mattn/go-isatty"
)

// Streams are where the program reads and writes. Results go to Out, messages to Err.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer

	InTerminal, OutTerminal bool // a person sits at the other end
}

// Standard returns the streams of the process.
func Standard() Streams {
	return Streams{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr,
		InTerminal: isTerminal(os.Stdin), OutTerminal: isTerminal(os.Stdout),
	}
}

func isTerminal(f *os.File) bool {
	return isatty.IsTerminal(f.Fd()) || isatty.IsCygwinTerminal(f.Fd())
}
