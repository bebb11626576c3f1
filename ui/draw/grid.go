// Package draw composes screens on a grid of cells and holds the drawings that are more than text:
// big digits, the derotator's gauge, the strip of the night, the dome of the sky, curves, tables.
// Each drawing is a function of values and an area: it reads no clock, keeps no state and cannot write
// outside its area. Every drawing has a form in plain ASCII.
package draw

import (
	"sync"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"

	"duskhand/ui/theme"
)

// cell is one place on the screen: a character as its first rune and the marks that combine with it.
// A rune of 0 is a blank, theme.Continued the right half of a wide character.
type cell struct {
	marks string
	first rune
	role  theme.Role
}

// Grid is a screen of cells, blank when new. Its size never changes.
type Grid struct {
	width, height int
	cells         []cell
}

// NewGrid returns a blank grid; a negative size counts as 0.
func NewGrid(width, height int) *Grid {
	width, height = max(width, 0), max(height, 0)
	return &Grid{width: width, height: height, cells: make([]cell, width*height)}
}

// grids are those that are done with: a picture a second needs one, and makes no waste by it.
var grids sync.Pool

// BlankGrid is NewGrid with the cells of a grid that is done with, if there is one.
func BlankGrid(width, height int) *Grid {
	width, height = max(width, 0), max(height, 0)
	g, used := grids.Get().(*Grid)
	if !used || cap(g.cells) < width*height {
		return NewGrid(width, height)
	}
	g.width, g.height, g.cells = width, height, g.cells[:width*height]
	g.Clear()
	return g
}

// Done gives the cells to a grid to come. Nothing may use the grid after it.
func (g *Grid) Done() { grids.Put(g) }

// Width returns the number of columns.
func (g *Grid) Width() int { return g.width }

// Height returns the number of rows.
func (g *Grid) Height() int { return g.height }

// Cell returns what stands at column x, row y, in the form that theme.Theme.Render reads; a blank
// outside the grid.
func (g *Grid) Cell(x, y int) (first rune, marks string, role theme.Role) {
	if x < 0 || y < 0 || x >= g.width || y >= g.height {
		return 0, "", theme.Ground
	}
	c := &g.cells[y*g.width+x]
	return c.first, c.marks, c.role
}

// Clear makes every cell blank, so that one grid can serve for many frames.
func (g *Grid) Clear() { clear(g.cells) }

// Whole returns the area of the whole grid.
func (g *Grid) Whole() Area { return Area{grid: g, width: g.width, height: g.height} }

// Area returns the part of g whose corner is at column x, row y, cut to what lies on the grid.
func (g *Grid) Area(x, y, width, height int) Area { return g.Whole().Area(x, y, width, height) }

// Put writes text from column x of row y on, as Area.Put does.
func (g *Grid) Put(x, y int, role theme.Role, text string) (end int) {
	return g.Whole().Put(x, y, role, text)
}

// PutRight writes text so that it ends before column x of row y, as Area.PutRight does.
func (g *Grid) PutRight(x, y int, role theme.Role, text string) (start int) {
	return g.Whole().PutRight(x, y, role, text)
}

// PutCentre writes text in the middle of row y, as Area.PutCentre does.
func (g *Grid) PutCentre(y int, role theme.Role, text string) (start int) {
	return g.Whole().PutCentre(y, role, text)
}

// Width returns how many cells text takes on a screen: what Put would fill of them.
func Width(text string) int {
	total := 0
	for len(text) > 0 {
		var width int
		_, text, width = nextCluster(text)
		total += width
	}
	return total
}

// nextCluster splits off the first character of text, of one or more runes, and its width in cells: 1
// or 2, or 0 for what has no place of its own. Control characters, which could move the cursor or
// change the terminal if a file name held them, come out as width 0, a tab as one blank.
func nextCluster(text string) (cluster, rest string, width int) {
	if isPlain(text[0]) && (len(text) == 1 || text[1] < utf8.RuneSelf) {
		return text[:1], text[1:], 1
	}
	if text[0] == '\t' {
		return " ", text[1:], 1
	}
	cluster, width = ansi.FirstGraphemeCluster(text, ansi.GraphemeWidth)
	rest = text[len(cluster):]
	if first, _ := utf8.DecodeRuneInString(cluster); unicode.IsControl(first) {
		width = 0
	} else if mayJoin(first) {
		cluster, width = apart(cluster, width)
	}
	return cluster, rest, min(width, 2)
}

// mayJoin tells of a character that it is none of those which the screens are full of and that join nothing: Latin,
// Greek, Cyrillic, punctuation, arrows, mathematics, boxes and blocks.
func mayJoin(r rune) bool {
	switch {
	case r < 0x300, r >= 0x370 && r < 0x483, r >= 0x2010 && r < 0x2060, r >= 0x2070 && r < 0x20D0, r >= 0x2100 && r < 0x2CEF:
		return false
	}
	return true
}

// apart keeps a character from joining its neighbours in the row, which would move all behind it: what joins the one
// before it is a mark without a place of its own, and what joins the one after it can't be shown.
//
// Source: Unicode Standard Annex 29, rules GB9, GB9a and GB9b.
func apart(cluster string, width int) (string, int) {
	if joined, _ := ansi.FirstGraphemeCluster("a"+cluster, ansi.GraphemeWidth); len(joined) > 1 {
		return cluster, 0
	}
	if joined, _ := ansi.FirstGraphemeCluster(cluster+"a", ansi.GraphemeWidth); len(joined) > len(cluster) {
		return "\uFFFD", 1
	}
	return cluster, width
}

func isPlain(b byte) bool { return b >= ' ' && b <= '~' }
