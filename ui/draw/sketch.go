package draw

import "duskhand/ui/theme"

// sketch is an area that is drawn on in two layers: characters, and the dots of lines below them.
type sketch struct {
	area    Area
	charset Charset
	canvas  *Canvas
}

func newSketch(area Area, charset Charset) sketch {
	return sketch{area: area, charset: charset, canvas: NewCanvas(area, charset)}
}

// beside writes text next to a cell, at the first of its sides where it covers nothing; if there is none,
// where it covers only lines; if there is none either, not at all.
func (s sketch) beside(x, y int, role theme.Role, text string) {
	if text == "" {
		return
	}
	width := Width(text)
	sides := [8][2]int{
		{x + 2, y}, {x - 1 - width, y}, {x - width/2, y - 1}, {x - width/2, y + 1},
		{x + 2, y - 1}, {x + 2, y + 1}, {x - 1 - width, y - 1}, {x - 1 - width, y + 1},
	}
	for _, overLines := range [2]bool{false, true} {
		for _, side := range sides {
			if s.hasRoom(side[0], side[1], width, overLines) {
				s.area.Put(side[0], side[1], role, text)
				return
			}
		}
	}
}

func (s sketch) hasRoom(x, y, width int, overLines bool) bool {
	if x < 0 || y < 0 || x+width > s.area.Width() || y >= s.area.Height() {
		return false
	}
	for i := x; i < x+width; i++ {
		if s.area.Rune(i, y) != 0 || (!overLines && s.canvas.hasDots(i, y)) {
			return false
		}
	}
	return isLetterless(s.area, x-1, y) && isLetterless(s.area, x+width, y)
}

// isLetterless returns whether a label may end beside this cell: next to a star it may, next to
// another label the two would read as one word.
func isLetterless(area Area, x, y int) bool {
	r := area.Rune(x, y)
	return !(r >= '0' && r <= '9') && !(r >= 'A' && r <= 'Z') && !(r >= 'a' && r <= 'z')
}
