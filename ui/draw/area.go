package draw

import (
	"unicode"
	"unicode/utf8"

	"duskhand/ui/theme"
)

// Area is a rectangle of a grid: a part of a screen draws in its area and can't leave it. Columns and
// rows count from its own corner. The zero Area has no cells and takes everything in silence.
type Area struct {
	grid                *Grid
	x, y, width, height int
}

// Width returns the number of columns.
func (a Area) Width() int { return a.width }

// Height returns the number of rows.
func (a Area) Height() int { return a.height }

// Area returns the part of a whose corner is at column x, row y, cut to what lies in a.
func (a Area) Area(x, y, width, height int) Area {
	left, top := max(x, 0), max(y, 0)
	right, bottom := min(x+width, a.width), min(y+height, a.height)
	return Area{
		grid: a.grid, x: a.x + left, y: a.y + top,
		width: max(right-left, 0), height: max(bottom-top, 0),
	}
}

// Put writes text from column x of row y on and returns the column after it. What lies outside the
// area is left out, the column returned being the same; a wide character that would be cut is left
// out whole. Invalid UTF-8 shows as U+FFFD, control characters not at all.
func (a Area) Put(x, y int, role theme.Role, text string) (end int) {
	for len(text) > 0 {
		var cluster string
		var width int
		cluster, text, width = nextCluster(text)
		if width == 0 {
			a.combine(x-1, y, cluster)
			continue
		}
		first, size := utf8.DecodeRuneInString(cluster)
		a.set(x, y, width, cell{first: first, marks: cluster[size:], role: role})
		x += width
	}
	return x
}

// PutRight writes text so that it ends before column x of row y, and returns the column of its start.
func (a Area) PutRight(x, y int, role theme.Role, text string) (start int) {
	start = x - Width(text)
	a.Put(start, y, role, text)
	return start
}

// PutCentre writes text in the middle of row y, half a cell to the left if it can't be even, and
// returns the column of its start.
func (a Area) PutCentre(y int, role theme.Role, text string) (start int) {
	start = (a.width - Width(text)) / 2
	a.Put(start, y, role, text)
	return start
}

// PutRune writes one character that is one cell wide, such as the parts of drawings are.
func (a Area) PutRune(x, y int, role theme.Role, r rune) {
	a.set(x, y, 1, cell{first: r, role: role})
}

// Rune returns the first rune at column x, row y: 0 for a blank and outside.
func (a Area) Rune(x, y int) rune {
	if !a.holds(x, y) {
		return 0
	}
	if r := a.at(x, y).first; r != ' ' {
		return r
	}
	return 0
}

func (a Area) holds(x, y int) bool { return x >= 0 && y >= 0 && x < a.width && y < a.height }

func (a Area) at(x, y int) *cell { return &a.grid.cells[(a.y+y)*a.grid.width+a.x+x] }

// set writes c, width cells wide, if it fits, and blanks the other half of any wide character that it
// covers in part.
func (a Area) set(x, y, width int, c cell) {
	if !a.holds(x, y) || !a.holds(x+width-1, y) {
		return
	}
	row := a.grid.cells[(a.y+y)*a.grid.width : (a.y+y+1)*a.grid.width]
	left, right := a.x+x, a.x+x+width
	if row[left].first == theme.Continued && left > 0 {
		row[left-1].first, row[left-1].marks = 0, ""
	}
	if right < len(row) && row[right].first == theme.Continued {
		row[right].first = 0
	}
	row[left] = c
	if width == 2 {
		row[left+1] = cell{first: theme.Continued, role: c.role}
	}
}

// combine adds a mark that came alone, as the first of a text can, to the character before it.
func (a Area) combine(x, y int, mark string) {
	first, _ := utf8.DecodeRuneInString(mark)
	if !unicode.IsMark(first) || !a.holds(x, y) {
		return
	}
	if c := a.at(x, y); c.first > ' ' {
		c.marks += mark
	}
}
