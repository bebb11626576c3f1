package command

import (
	"fmt"
	"io"
	"os"
	"strings"

	"duskhand/ui/draw"
)

// bar is a line on a terminal that says how far the measuring has come, without colour. On anything but a
// terminal it is not there.
type bar struct {
	to           io.Writer // nil without one
	filled, rest string
	last         string
}

const barCells = 30

// bar returns the bar of the program's messages.
func (p Program) bar() *bar {
	file, ok := p.Streams.Err.(*os.File)
	if !ok || !isTerminal(file) || p.Env("TERM") == "dumb" {
		return &bar{}
	}
	if p.asciiLocale() {
		return &bar{to: file, filled: "#", rest: "."}
	}
	return &bar{to: file, filled: "█", rest: "░"}
}

// show says how many are done.
func (b *bar) show(done, all int) error {
	if b.to == nil {
		return nil
	}
	cells := barCells * done / max(1, all)
	return b.put(fmt.Sprintf("measuring %s%s %d of %d", strings.Repeat(b.filled, cells), strings.Repeat(b.rest, barCells-cells), done, all))
}

// end takes the line away.
func (b *bar) end() error {
	if b.to == nil || b.last == "" {
		return nil
	}
	if err := b.put(""); err != nil {
		return err
	}
	_, err := io.WriteString(b.to, "\r")
	return err
}

// put writes over what stands there, by a carriage return and blanks alone.
func (b *bar) put(line string) error {
	_, err := io.WriteString(b.to, "\r"+line+strings.Repeat(" ", max(0, draw.Width(b.last)-draw.Width(line))))
	b.last = line
	return err
}
