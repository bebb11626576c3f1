package draw_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

var update = flag.Bool("update", false, "rewrite the golden files under testdata")

// sizes are those of the smallest, the usual and a large window.
var sizes = [][2]int{{40, 10}, {80, 24}, {120, 40}}

func charsetName(cs draw.Charset) string {
	if cs == draw.ASCII {
		return "ascii"
	}
	return "unicode"
}

// textOf returns the grid's characters, each line ended by |, so that blanks at the end can be seen.
func textOf(g *draw.Grid) string {
	var b strings.Builder
	for y := range g.Height() {
		for x := range g.Width() {
			switch first, marks, _ := g.Cell(x, y); first {
			case theme.Continued:
			case 0:
				b.WriteByte(' ')
			default:
				b.WriteString(string(first) + marks)
			}
		}
		b.WriteString("|\n")
	}
	return b.String()
}

// rolesOf returns one letter a cell for its role, a point for one without a character.
func rolesOf(g *draw.Grid) string {
	const letters = "gfltkmcnwAC" // in the order of the roles: ground, faint, line, text, key, …
	var b strings.Builder
	for y := range g.Height() {
		for x := range g.Width() {
			first, _, role := g.Cell(x, y)
			if first == 0 {
				b.WriteByte('.')
				continue
			}
			b.WriteByte(letters[role])
		}
		b.WriteString("|\n")
	}
	return b.String()
}

func TestDrawingsLookAsInTheGoldenFiles(t *testing.T) {
	for _, s := range scenes() {
		for _, cs := range []draw.Charset{draw.Unicode, draw.ASCII} {
			name := s.name + "-" + charsetName(cs)
			t.Run(name, func(t *testing.T) {
				var got strings.Builder
				for _, size := range sizes {
					g := draw.NewGrid(size[0], min(size[1], s.rows(size[1])))
					s.draw(g.Whole(), cs)
					fmt.Fprintf(&got, "%d × %d\n%s\nroles\n%s\n", g.Width(), g.Height(), textOf(g), rolesOf(g))
				}
				path := filepath.Join("testdata", name+".golden")
				if *update {
					require.NoError(t, os.MkdirAll("testdata", 0o755))
					require.NoError(t, os.WriteFile(path, []byte(got.String()), 0o644))
				}
				want, err := os.ReadFile(path)
				require.NoError(t, err)
				require.Equal(t, string(want), got.String(), "rewrite with -update and read the difference")
			})
		}
	}
}
