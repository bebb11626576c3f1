package draw

import (
	"math"

	"duskhand/ui/theme"
)

// Spot is a place in a field: right and up of the drawing's middle, in units of half its height, as the
// drawing shows it.
type Spot struct{ Right, Up float64 }

// FieldStar is one star of a field.
type FieldStar struct {
	Spot
	Magnitude float64
	Label     string // none if empty
}

// FieldLine is an outline or a stroke.
type FieldLine struct {
	Spots  []Spot
	Closed bool
	Dashed bool
	Role   theme.Role
}

// FieldName is a word that belongs to a place.
type FieldName struct {
	Spot
	Text string
	Role theme.Role
}

// FieldValues says what a field shows. Spots outside are cut off.
type FieldValues struct {
	Stars      []FieldStar // brightest first: where two meet the first shows
	Lines      []FieldLine
	Names      []FieldName // the more important first
	North      Spot        // which way north is, and east; of any length
	East       Spot
	Cross      *Spot   // where something is wanted; nil for nowhere
	ScaleSize  float64 // of the scale bar, in units of half the height; 0 for none
	ScaleLabel string

	// Steps are the magnitudes down to which a star is a disc, a smaller one, a point; fainter ones are
	// single dots.
	Steps [3]float64
}

// Field draws a patch of the sky at true proportions, cells being twice as high as wide: stars by magnitude
// as ● • · and dots, outlines, names where they cover nothing, the scale in the lower left corner, N and E
// at the ends of two short arms in the upper right.
//
// Valid: at least 12 columns and 5 rows; less draws nothing.
func Field(area Area, charset Charset, v FieldValues) {
	if area.Width() < 12 || area.Height() < 5 {
		return
	}
	f := newField(area, charset)
	for _, line := range v.Lines {
		f.line(line)
	}
	f.scale(v.ScaleSize, v.ScaleLabel)
	f.compass(v.North, v.East)
	if v.Cross != nil {
		x, y := f.cell(*v.Cross)
		f.area.PutRune(x, y, theme.Mark, f.charset.pick('┼', '+'))
	}
	for _, star := range v.Stars {
		f.star(star, v.Steps)
	}
	for _, name := range v.Names {
		if x, y := f.cell(name.Spot); f.area.holds(x, y) {
			f.beside(x, y, name.Role, name.Text)
		}
	}
	for _, star := range v.Stars {
		if x, y := f.cell(star.Spot); star.Label != "" && f.area.holds(x, y) {
			f.beside(x, y, theme.Text, star.Label)
		}
	}
	f.canvas.drawUnder()
}

// FieldWidth returns the width of a field drawn in so many cells, in units of half its height.
func FieldWidth(columns, rows int) float64 {
	return 2 * float64(columns*dotsAcross) / float64(max(1, rows*dotsDown))
}

type field struct {
	sketch
	half float64 // of the height, in dots
}

func newField(area Area, charset Charset) field {
	s := newSketch(area, charset)
	return field{sketch: s, half: float64(s.canvas.Height()-1) / 2}
}

func (f field) point(s Spot) Point {
	return Point{float64(f.canvas.Width()-1)/2 + s.Right*f.half, f.half - s.Up*f.half}
}

func (f field) cell(s Spot) (x, y int) {
	p := f.point(s)
	if !p.onPaper() {
		return -1, -1
	}
	return int(math.Floor((p.X + 0.5) / dotsAcross)), int(math.Floor((p.Y + 0.5) / dotsDown))
}

// dashDots is how far the dots of a dashed line are apart.
const dashDots = 3

func (f field) line(line FieldLine) {
	nth := 1
	if line.Dashed {
		nth = dashDots
	}
	for i := range line.Spots {
		next := i + 1
		if next == len(line.Spots) {
			if !line.Closed {
				return
			}
			next = 0
		}
		f.canvas.Dashed(f.point(line.Spots[i]), f.point(line.Spots[next]), line.Role, nth)
	}
}

// star puts one star where no brighter one stands.
func (f field) star(star FieldStar, steps [3]float64) {
	x, y := f.cell(star.Spot)
	if f.area.Rune(x, y) != 0 {
		return
	}
	switch {
	case star.Magnitude <= steps[0]:
		f.area.PutRune(x, y, theme.Text, f.charset.pick('●', '@'))
	case star.Magnitude <= steps[1]:
		f.area.PutRune(x, y, theme.Text, f.charset.pick('•', '*'))
	case star.Magnitude <= steps[2]:
		f.area.PutRune(x, y, theme.Text, f.charset.pick('·', '+'))
	case f.charset == ASCII:
		f.area.PutRune(x, y, theme.Faint, '.')
	default:
		f.canvas.SetPoint(f.point(star.Spot), theme.Faint)
	}
}

// scale draws the bar with its label in the lower left corner, if it takes no more than half the width.
func (f field) scale(size float64, label string) {
	cells := int(math.Round(size * f.half / dotsAcross))
	if cells < 2 || cells > f.area.Width()/2 {
		return
	}
	y := f.area.Height() - 1
	f.area.PutRune(0, y, theme.Faint, f.charset.pick('├', '|'))
	for x := 1; x < cells-1; x++ {
		f.area.PutRune(x, y, theme.Faint, f.charset.pick('─', '-'))
	}
	f.area.PutRune(cells-1, y, theme.Faint, f.charset.pick('┤', '|'))
	f.area.Put(cells+1, y, theme.Faint, label)
}

// armDots is the length of the compass's arms: four rows of cells are room for any way they point.
const armDots = 7

// compass draws two arms from a point in the upper right corner and their letters beyond the ends.
func (f field) compass(north, east Spot) {
	centre := Point{float64(f.canvas.Width()) - 12, 11}
	for _, arm := range []struct {
		way    Spot
		letter rune
	}{{north, 'N'}, {east, 'E'}} {
		length := math.Hypot(arm.way.Right, arm.way.Up)
		if length == 0 {
			continue
		}
		dx, dy := arm.way.Right/length, -arm.way.Up/length
		f.canvas.Line(centre, Point{centre.X + armDots*dx, centre.Y + armDots*dy}, theme.Line)
		f.area.PutRune(int(centre.X+(armDots+3)*dx)/dotsAcross, int(centre.Y+(armDots+4)*dy)/dotsDown, theme.Text, arm.letter)
	}
}
