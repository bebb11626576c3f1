package draw

import (
	"math"

	"duskhand/ui/theme"
)

// Dots per cell of a braille character: 2 across, 4 down, which makes them square on a screen whose
// cells are twice as high as wide.
const (
	dotsAcross = 2
	dotsDown   = 4
)

// Point is a place on a canvas in dots, x to the right and y down from the corner's dot centre.
type Point struct{ X, Y float64 }

// Canvas collects dots over an area, eight to a cell, and puts them there with Draw. Where dots of
// several roles share a cell the highest role shows.
type Canvas struct {
	area    Area
	charset Charset
	dots    []uint8 // one bit per dot: bit row·2 + column
	roles   []theme.Role
}

// NewCanvas returns an empty canvas over area.
func NewCanvas(area Area, charset Charset) *Canvas {
	n := area.Width() * area.Height()
	return &Canvas{area: area, charset: charset, dots: make([]uint8, n), roles: make([]theme.Role, n)}
}

// Width returns the number of dots across.
func (c *Canvas) Width() int { return c.area.Width() * dotsAcross }

// Height returns the number of dots down.
func (c *Canvas) Height() int { return c.area.Height() * dotsDown }

// Set lights the dot at column x, row y of dots; nothing happens outside the canvas.
func (c *Canvas) Set(x, y int, role theme.Role) {
	if x < 0 || y < 0 || x >= c.Width() || y >= c.Height() {
		return
	}
	i := y/dotsDown*c.area.Width() + x/dotsAcross
	c.dots[i] |= 1 << (y%dotsDown*dotsAcross + x%dotsAcross)
	c.roles[i] = max(c.roles[i], role)
}

// SetPoint lights the dot nearest to p.
func (c *Canvas) SetPoint(p Point, role theme.Role) {
	if !p.onPaper() {
		return
	}
	c.Set(int(math.Round(p.X)), int(math.Round(p.Y)), role)
}

// onPaper returns whether p can be turned into a dot number at all.
func (p Point) onPaper() bool {
	const far = 1 << 20 // no terminal is that wide, and an int holds it on every machine
	return math.Abs(p.X) < far && math.Abs(p.Y) < far
}

// Line lights the dots between two points, ends included.
func (c *Canvas) Line(from, to Point, role theme.Role) { c.Dashed(from, to, role, 1) }

// Dashed lights every nth dot between two points, the first included.
func (c *Canvas) Dashed(from, to Point, role theme.Role, nth int) {
	from, to, ok := c.clip(from, to)
	if !ok {
		return
	}
	dx, dy := to.X-from.X, to.Y-from.Y
	steps := int(math.Ceil(max(math.Abs(dx), math.Abs(dy))))
	for i := 0; i <= steps; i += max(nth, 1) {
		t := float64(i) / float64(max(steps, 1))
		c.SetPoint(Point{from.X + t*dx, from.Y + t*dy}, role)
	}
}

// clip cuts the line to the canvas with a margin of a dot (Liang and Barsky 1984, ACM Transactions on
// Graphics 3(1), 1–22), so that a line to far outside costs no more than one across; ok is false if
// nothing is left or an end is not a number.
func (c *Canvas) clip(from, to Point) (Point, Point, bool) {
	d := Point{to.X - from.X, to.Y - from.Y}
	t0, t1 := 0.0, 1.0
	edges := [4][2]float64{
		{-d.X, from.X + 1}, {d.X, float64(c.Width()) - from.X},
		{-d.Y, from.Y + 1}, {d.Y, float64(c.Height()) - from.Y},
	}
	for _, e := range edges {
		p, q := e[0], e[1]
		switch {
		case math.IsNaN(p) || math.IsInf(p, 0) || (p == 0 && q < 0):
			return from, to, false
		case p < 0:
			t0 = max(t0, q/p)
		case p > 0:
			t1 = min(t1, q/p)
		}
	}
	return Point{from.X + t0*d.X, from.Y + t0*d.Y}, Point{from.X + t1*d.X, from.Y + t1*d.Y}, t0 <= t1
}

// Draw puts the cells that have dots into the area and leaves the others as they are.
func (c *Canvas) Draw() {
	width := c.area.Width()
	for i, bits := range c.dots {
		if bits != 0 {
			c.area.PutRune(i%width, i/width, c.roles[i], dotRune(c.charset, bits))
		}
	}
}

// drawUnder is Draw for cells in which nothing was put; what stands there stays, blanks between the
// words of a label too.
func (c *Canvas) drawUnder() {
	width := c.area.Width()
	for i, bits := range c.dots {
		if x, y := i%width, i/width; bits != 0 && c.area.at(x, y).first == 0 {
			c.area.PutRune(x, y, c.roles[i], dotRune(c.charset, bits))
		}
	}
}

// hasDots returns whether the cell at column x, row y has a dot; outside there are none.
func (c *Canvas) hasDots(x, y int) bool {
	return c.area.holds(x, y) && c.dots[y*c.area.Width()+x] != 0
}

// dotRune returns the character that shows the dots.
func dotRune(charset Charset, bits uint8) rune {
	if charset == ASCII {
		return asciiDots(bits)
	}
	// The Unicode block counts dots down the columns and adds the fourth row last: 1 2 3 7, 4 5 6 8.
	order := [8]uint8{0, 3, 1, 4, 2, 5, 6, 7}
	r := rune(0x2800)
	for i, bit := range order {
		if bits&(1<<i) != 0 {
			r |= 1 << bit
		}
	}
	return r
}

// asciiDots returns the ASCII character whose strokes lie nearest to the dots.
func asciiDots(bits uint8) rune {
	left, right := columnOf(bits, 0), columnOf(bits, 1)
	switch {
	case right.count == 0 && left.count == 1, left.count == 0 && right.count == 1:
		return [dotsDown]rune{'\'', '-', '-', '.'}[left.sum+right.sum]
	case right.count == 0 || left.count == 0:
		return '|'
	}
	slope := left.sum*right.count - right.sum*left.count // > 0: lower on the left
	switch {
	case slope > left.count*right.count:
		return '/'
	case -slope > left.count*right.count:
		return '\\'
	case left.count+right.count > 4:
		return ':'
	}
	return [dotsDown]rune{'\'', '-', '-', '_'}[(left.sum+right.sum)/(left.count+right.count)]
}

// column is the number of dots in a column of a cell and the sum of their rows.
type column struct{ count, sum int }

func columnOf(bits uint8, x int) (c column) {
	for y := range dotsDown {
		if bits&(1<<(y*dotsAcross+x)) != 0 {
			c.count++
			c.sum += y
		}
	}
	return c
}
