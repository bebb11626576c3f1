package draw

import (
	"unicode"

	"duskhand/ui/theme"
)

// glyphGap is the number of dots between two big characters.
const glyphGap = 2

// largestScale bounds the growth of big text: at ×6 a digit is 30 cells wide, and a screen of digits only gives off
// no more light than one that is smaller.
const largestScale = 6

// BigTextSize returns the columns and rows that text takes as big text of that scale. Scale 1 has
// digits 5 cells wide and 5 rows high; each step adds as much again, less the half row at the foot.
func BigTextSize(text string, scale int) (width, height int) {
	dots := 0
	for _, r := range text {
		dots += len(bigGlyph(r))/glyphRows + glyphGap
	}
	return max(dots-glyphGap, 0) * scale, (glyphRows*scale + 1) / 2
}

// FitBigText returns the largest scale, up to 6, at which text fits the width and height; 0 if none.
func FitBigText(text string, width, height int) (scale int) {
	for s := largestScale; s > 0; s-- {
		if w, h := BigTextSize(text, s); w <= width && h <= height {
			return s
		}
	}
	return 0
}

// BigText draws text at the largest scale that fits, from the area's corner, and returns the columns
// and rows that it took. Where even the smallest doesn't fit it is written as ordinary text.
//
// Valid: digits, A to Z, d h i m n s, blanks and : . − + ± ° / ? !; other small letters as capitals;
// anything else as a dotted box.
func BigText(area Area, charset Charset, role theme.Role, text string) (width, height int) {
	return BigTextScaled(area, charset, role, FitBigText(text, area.Width(), area.Height()), text)
}

// BigTextScaled draws text at the given scale, as BigText does, so that a value whose length changes
// can keep the scale of the longest. Scale 0 is ordinary text.
func BigTextScaled(area Area, charset Charset, role theme.Role, scale int, text string) (width, height int) {
	if scale < 1 {
		return area.Put(0, 0, role, text), 1
	}
	x := 0
	for _, r := range text {
		dots := bigGlyph(r)
		drawGlyph(area, charset, role, scale, x, dots)
		x += (len(dots)/glyphRows + glyphGap) * scale
	}
	return BigTextSize(text, scale)
}

// bigGlyph returns the dots of r, of its capital if only that exists.
func bigGlyph(r rune) string {
	if dots := glyph(r); dots != missing || !unicode.IsLower(r) {
		return dots
	}
	return glyph(unicode.ToUpper(r))
}

// drawGlyph draws one character with its left edge at column x. A cell covers two dots, one above the
// other, divided by the scale; ASCII shows the upper one only.
func drawGlyph(area Area, charset Charset, role theme.Role, scale, x int, dots string) {
	columns := len(dots) / glyphRows
	lit := func(halfRow, column int) bool {
		row := halfRow / scale
		return row < glyphRows && dots[row*columns+column/scale] == '#'
	}
	for y := range (glyphRows*scale + 1) / 2 {
		for c := range columns * scale {
			upper, lower := lit(2*y, c), lit(2*y+1, c)
			if charset == ASCII {
				lower = upper
			}
			if upper || lower {
				area.PutRune(x+c, y, role, halfBlock(charset, upper, lower))
			}
		}
	}
}

func halfBlock(charset Charset, upper, lower bool) rune {
	switch {
	case charset == ASCII:
		return '#'
	case upper && lower:
		return '█'
	case upper:
		return '▀'
	default:
		return '▄'
	}
}
