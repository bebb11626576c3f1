package draw_test

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"

	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// What is put into cells of its own must not join what stands beside it, or the rest of the row moves: every character
// between letters, between blanks, and behind another text.
func TestNoCharacterJoinsItsNeighbours(t *testing.T) {
	var joined []rune
	for r := rune(' '); r <= utf8.MaxRune; r++ {
		if !unicode.In(r, unicode.L, unicode.M, unicode.N, unicode.P, unicode.S, unicode.Cf) || unicode.In(r, unicode.Han, unicode.Hangul) && r > 0x1200 {
			continue // not assigned, or of the thousands that are all alike
		}
		for _, puts := range [][3]string{{"a", string(r), "b"}, {"", string(r), ""}, {"月", string(r), "a" + string(r) + "b"}} {
			g := draw.NewGrid(8, 1)
			for i, text := range puts {
				g.Put(1+2*i, 0, theme.Text, text)
			}
			if line := strings.TrimSuffix(textOf(g), "\n"); draw.Width(line) != 9 {
				joined = append(joined, r)
				break
			}
		}
	}
	assert.Empty(t, joined, "%U", joined)
}
