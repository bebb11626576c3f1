package draw_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// The values of single dots are those of the Unicode chart U2800: dots 1 to 8 are bits 0 to 7, 1 2 3 7
// down the left and 4 5 6 8 down the right.
func TestEachDotHasItsPlaceInTheBrailleCell(t *testing.T) {
	want := [4][2]rune{{0x2801, 0x2808}, {0x2802, 0x2810}, {0x2804, 0x2820}, {0x2840, 0x2880}}
	for y := range 4 {
		for x := range 2 {
			g := draw.NewGrid(1, 1)
			c := draw.NewCanvas(g.Whole(), draw.Unicode)
			c.Set(x, y, theme.Line)
			c.Draw()
			first, _, _ := g.Cell(0, 0)
			assert.Equal(t, string(want[y][x]), string(first), "dot %d, %d", x, y)
		}
	}
}

func TestTheHighestRoleOfACellShows(t *testing.T) {
	g := draw.NewGrid(1, 1)
	c := draw.NewCanvas(g.Whole(), draw.Unicode)
	c.Set(0, 0, theme.Faint)
	c.Set(1, 1, theme.Mark)
	c.Set(0, 2, theme.Line)
	c.Draw()
	_, _, role := g.Cell(0, 0)
	require.Equal(t, theme.Mark, role)
}

func TestDrawLeavesCellsWithoutDotsAlone(t *testing.T) {
	g := draw.NewGrid(3, 1)
	g.Put(0, 0, theme.Text, "abc")
	c := draw.NewCanvas(g.Whole(), draw.Unicode)
	c.Set(2, 0, theme.Line)
	c.Draw()
	require.Equal(t, "a⠁c|\n", textOf(g))
}

func TestLines(t *testing.T) {
	cases := []struct {
		name     string
		from, to draw.Point
		want     string
	}{
		{"along the top", draw.Point{}, draw.Point{X: 5}, "⠉⠉⠉|\n"},
		{"down the left", draw.Point{}, draw.Point{Y: 3}, "⡇  |\n"},
		{"a point", draw.Point{X: 2, Y: 3}, draw.Point{X: 2, Y: 3}, " ⡀ |\n"},
		{"from far left to far right", draw.Point{X: -1e12, Y: 3}, draw.Point{X: 1e12, Y: 3}, "⣀⣀⣀|\n"},
		{"outside", draw.Point{X: -9, Y: -9}, draw.Point{X: 20, Y: -9}, "   |\n"},
		{"not a number", draw.Point{X: math.NaN()}, draw.Point{X: 5}, "   |\n"},
		{"without end", draw.Point{}, draw.Point{X: math.Inf(1)}, "   |\n"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			g := draw.NewGrid(3, 1)
			canvas := draw.NewCanvas(g.Whole(), draw.Unicode)
			canvas.Line(c.from, c.to, theme.Line)
			canvas.Draw()
			assert.Equal(t, c.want, textOf(g))
		})
	}
}

func TestASCIIDotsFollowTheStroke(t *testing.T) {
	cases := []struct {
		name     string
		from, to draw.Point
		want     string
	}{
		{"top", draw.Point{}, draw.Point{X: 1}, "'|\n"},
		{"foot", draw.Point{Y: 3}, draw.Point{X: 1, Y: 3}, "_|\n"},
		{"middle", draw.Point{Y: 2}, draw.Point{X: 1, Y: 2}, "-|\n"},
		{"upright", draw.Point{}, draw.Point{Y: 3}, "||\n"},
		{"rising", draw.Point{Y: 3}, draw.Point{X: 1}, "/|\n"},
		{"falling", draw.Point{}, draw.Point{X: 1, Y: 3}, "\\|\n"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			g := draw.NewGrid(1, 1)
			canvas := draw.NewCanvas(g.Whole(), draw.ASCII)
			canvas.Line(c.from, c.to, theme.Line)
			canvas.Draw()
			assert.Equal(t, c.want, textOf(g))
		})
	}
}
