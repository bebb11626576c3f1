package draw

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"
)

// glyphRows is the height of the big font: nine square dots, two to a row of half-blocks.
const glyphRows = 9

// missing is drawn for a character that the font lacks: a hollow box, so that the lack is seen.
const missing = "#.#.#" + "....." + "#...#" + "....." + "#...#" + "....." + "#...#" + "....." + "#.#.#"

// glyphFile has a block for each picture, a blank line between them: the characters that it is for as U+ and four
// hexadecimal digits, perhaps the first itself for whoever reads, and then nine rows of equal width.
//
//go:embed glyphs.txt
var glyphFile string

var glyphs = sync.OnceValue(func() map[rune]string {
	all := map[rune]string{}
	for block := range strings.SplitSeq(strings.TrimSpace(glyphFile), "\n\n") {
		heading, rows, _ := strings.Cut(block, "\n")
		for _, name := range strings.Fields(heading) {
			var r rune
			if _, err := fmt.Sscanf(name, "U+%04X", &r); err == nil {
				all[r] = strings.ReplaceAll(rows, "\n", "")
			}
		}
	}
	return all
})

// glyph returns the dots of one character, row by row, '#' for a lit one: nine rows of equal width.
// All digits are five wide, and so is U+2007, the blank of a digit's width, so that a number keeps its
// place. The even rows alone still tell all characters apart: the small ASCII form shows only those.
func glyph(r rune) string {
	if dots, known := glyphs()[r]; known {
		return dots
	}
	return missing
}
