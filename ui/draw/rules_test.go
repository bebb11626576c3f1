package draw_test

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// TestNoDrawingLeavesItsArea draws in areas of every small size and looks at the cells around.
func TestNoDrawingLeavesItsArea(t *testing.T) {
	const margin = 3
	for _, s := range scenes() {
		t.Run(s.name, func(t *testing.T) {
			for _, cs := range []draw.Charset{draw.Unicode, draw.ASCII} {
				for width := range 62 {
					for height := range 14 {
						g := draw.NewGrid(width+2*margin, height+2*margin)
						for y := range g.Height() {
							g.Put(0, y, theme.Faint, strings.Repeat("~", g.Width()))
						}
						inner := g.Area(margin, margin, width, height)
						s.draw(inner, cs)
						requireMarginKept(t, g, margin, fmt.Sprintf("%d × %d, %s", width, height, charsetName(cs)))
					}
				}
			}
		})
	}
}

func requireMarginKept(t *testing.T, g *draw.Grid, margin int, size string) {
	t.Helper()
	for y := range g.Height() {
		for x := range g.Width() {
			inside := x >= margin && y >= margin && x < g.Width()-margin && y < g.Height()-margin
			if first, _, _ := g.Cell(x, y); !inside && first != '~' {
				t.Fatalf("%s: %q stands outside the area, at column %d, row %d", size, first, x, y)
			}
		}
	}
}

func TestASCIIDrawingsHaveNothingElse(t *testing.T) {
	const callersWords = "°′α" // in the labels of the examples, which are not the drawings' own
	for _, s := range scenes() {
		for _, size := range sizes {
			g := draw.NewGrid(size[0], size[1])
			s.draw(g.Whole(), draw.ASCII)
			for _, r := range textOf(g) {
				if r >= utf8.RuneSelf && !strings.ContainsRune(callersWords, r) {
					t.Errorf("%s, %d × %d: %q is not ASCII", s.name, size[0], size[1], r)
				}
			}
			g.ToASCII()
			for _, r := range textOf(g) {
				require.Less(t, r, rune(utf8.RuneSelf), "%s after ToASCII: %q", s.name, r)
			}
		}
	}
}

func TestToASCIIKeepsWidthsAndReadsWell(t *testing.T) {
	g := draw.NewGrid(30, 1)
	g.Put(0, 0, theme.Text, "−16.5° ± 1.2′ é 月 → 23:40…")
	g.ToASCII()
	require.Equal(t, "-16.5d ~ 1.2' e ?  > 23:40.   |\n", textOf(g))
}

// TestDrawingsAllocateLittle bounds what a frame costs the collector. The numbers are those counted
// when this was written and a little room; they grow with the drawing's lists, not with its size.
func TestDrawingsAllocateLittle(t *testing.T) {
	bounds := map[string]float64{
		"bigtext": 0, "rewind": 0, "sparkline": 0, "strip": 2, "gauge": 12, "plot": 6, "dome": 4, "field": 4, "table": 12,
	}
	for _, s := range scenes() {
		examples := testing.AllocsPerRun(1, func() { s.draw(draw.Area{}, draw.Unicode) }) // the values themselves
		g := draw.NewGrid(80, 24)
		got := testing.AllocsPerRun(10, func() { s.draw(g.Whole(), draw.Unicode) })
		require.LessOrEqual(t, got-examples, bounds[s.name], s.name)
	}
}
