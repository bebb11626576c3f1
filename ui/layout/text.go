package layout

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// Margin is the blank column at the left and right of every screen, given up where it is narrow.
func Margin(width int) int {
	if width < 60 {
		return 0
	}
	return 1
}

// Inner returns area without its margins.
func Inner(area draw.Area) draw.Area {
	side := Margin(area.Width())
	return area.Area(side, 0, area.Width()-2*side, area.Height())
}

// Slice returns one band of area, with margins.
func Slice(area draw.Area, b Band) draw.Area {
	return Inner(area.Area(0, b.Top, area.Width(), b.Height))
}

// Put writes the longest of several ways to say a thing that fits.
func Put(area draw.Area, role theme.Role, ways ...string) {
	area.Put(0, 0, role, Longest(area.Width(), ways...))
}

// Longest returns the first of several ways to say a thing, longest first, that fits the width; the last one,
// shortened, if none does.
func Longest(width int, ways ...string) string {
	for _, way := range ways {
		if draw.Width(way) <= width {
			return way
		}
	}
	if len(ways) == 0 {
		return ""
	}
	return draw.Shorten(draw.Unicode, ways[len(ways)-1], width)
}

// Paragraph writes text in as many rows as it needs and returns how many those were.
func Paragraph(area draw.Area, y int, role theme.Role, text string) int {
	if text == "" || area.Width() <= 0 {
		return 0
	}
	lines := strings.Split(ansi.Wordwrap(text, area.Width(), ""), "\n")
	for i, line := range lines {
		area.Put(0, y+i, role, line)
	}
	return len(lines)
}

// Wrapped returns text in rows of a width, all but the first indented.
func Wrapped(text string, width, indent int) []string {
	first, rest, more := strings.Cut(ansi.Wordwrap(text, max(1, width), ""), "\n")
	if !more {
		return []string{first}
	}
	rows := []string{first}
	for _, row := range strings.Split(ansi.Wordwrap(strings.ReplaceAll(rest, "\n", " "), max(1, width-indent), ""), "\n") {
		rows = append(rows, strings.Repeat(" ", indent)+row)
	}
	return rows
}

// RowsOf is how many rows a paragraph takes.
func RowsOf(area draw.Area, text string) int {
	return strings.Count(ansi.Wordwrap(text, max(1, area.Width()), ""), "\n") + 1
}
