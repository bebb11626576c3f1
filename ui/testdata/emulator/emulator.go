// Package emulator says what a terminal would show of the program's output, cell by cell. Only tests use it.
//
// The emulator itself is a small old library: newer ones bring a version of go-runewidth that spends 19 ms
// of every start on a table.
package emulator

import (
	"image/color"

	"github.com/charmbracelet/x/ansi"
	"github.com/hinshun/vt10x"
)

// Screen is an emulated terminal.
type Screen struct{ terminal vt10x.Terminal }

// New returns a blank screen.
func New(width, height int) Screen {
	return Screen{vt10x.New(vt10x.WithSize(width, height))}
}

// Write feeds the screen with output. Lines end with carriage return and line feed, as a terminal in raw
// mode wants them.
func (s Screen) Write(output []byte) (int, error) { return s.terminal.Write(output) }

// String returns the text of the screen, a line each row.
func (s Screen) String() string { return s.terminal.String() }

// Cell is what stands in one place. A nil colour is the terminal's own.
type Cell struct {
	Char         rune
	Text, Ground color.Color
	Bold, Blink  bool
}

// The library's modes of a cell, which it does not export: state.go, attrBold and attrBlink. Reversed cells
// come with their colours exchanged.
const bold, blink = 1 << 2, 1 << 5

// Cell returns the cell at column x of row y.
func (s Screen) Cell(x, y int) Cell {
	glyph := s.terminal.Cell(x, y)
	text := glyph.FG
	if glyph.Mode&bold != 0 && text >= 8 && text < 16 {
		text -= 8 // the library shows bold text in the bright colour; what was asked for is the other
	}
	return Cell{Char: glyph.Char, Text: colourOf(text), Ground: colourOf(glyph.BG), Bold: glyph.Mode&bold != 0, Blink: glyph.Mode&blink != 0}
}

func colourOf(c vt10x.Color) color.Color {
	switch {
	case c >= vt10x.DefaultFG:
		return nil
	case c < 16:
		return ansi.BasicColor(c)
	case c < 256:
		return ansi.IndexedColor(c)
	}
	return color.RGBA{R: uint8(c >> 16), G: uint8(c >> 8), B: uint8(c), A: 255}
}
