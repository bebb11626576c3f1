package screens

import (
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// Thin rules set the panels of a screen apart where they would run into each other.

// RuleDown draws a rule from the top of the area to its foot, in a column.
func RuleDown(area draw.Area, x int) {
	for y := range area.Height() {
		area.PutRune(x, y, theme.Line, '│')
	}
}

// RuleAcross draws a rule over the width of the area, in a row.
func RuleAcross(area draw.Area, y int) {
	for x := range area.Width() {
		area.PutRune(x, y, theme.Line, '─')
	}
}
