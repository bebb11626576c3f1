package page

import (
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// labelSize is the size of the letters in the field; labelLetter is about how wide one of them is, on the wide side.
const (
	labelSize   = 12.0
	labelLetter = 0.66 * labelSize
)

// labels are the rectangles that names take in a field whose corner is at, and those of stars too large to write over.
type labels struct {
	at    point
	taken []area
}

// keepOff keeps names off a star, if it is more than a speck: the ground about the letters hides those.
func (l *labels) keepOff(star point, radius float64) {
	const speck = 2.5
	if radius > speck {
		l.taken = append(l.taken, area{star.x - radius, star.y - radius, star.x + radius, star.y + radius})
	}
}

// area is a rectangle, y down.
type area struct{ left, top, right, bottom float64 }

func (a area) meets(b area) bool {
	return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
}

// label writes a name beside a place that a dot of a radius marks: where it is whole and over no other name and no star,
// right, left, above or below, and nowhere if there is no such side. Lines behind it are hidden.
func (s *svg) label(l *labels, of point, radius float64, role theme.Role, words string) {
	if !l.field().meets(area{of.x, of.y, of.x + 1, of.y + 1}) {
		return // its place is outside
	}
	gap := 5 + max(2, radius)
	wide := float64(draw.Width(words)) * labelLetter
	for _, corner := range []point{ // of the words' left end, on the base line
		{of.x + gap, of.y + 4}, {of.x - gap - wide, of.y + 4}, {of.x - wide/2, of.y - gap}, {of.x - wide/2, of.y + gap + labelSize},
	} {
		room := area{corner.x, corner.y - labelSize, corner.x + wide, corner.y + 3}
		if l.free(room) {
			l.taken = append(l.taken, room)
			s.haloed(corner, labelSize, role, words)
			return
		}
	}
}

func (l *labels) field() area { return area{l.at.x, l.at.y, l.at.x + fieldSize, l.at.y + fieldSize} }

// free tells whether an area lies in the field and over no name.
func (l *labels) free(a area) bool {
	f := l.field()
	if a.left < f.left || a.right > f.right || a.top < f.top || a.bottom > f.bottom {
		return false
	}
	for _, other := range l.taken {
		if a.meets(other) {
			return false
		}
	}
	return true
}
