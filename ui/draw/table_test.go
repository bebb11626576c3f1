package draw_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

func smallTable(chosen, first int) draw.TableValues {
	return draw.TableValues{
		Columns: []draw.TableColumn{{Title: "name"}, {Title: "alt", Width: 4, Align: draw.AlignRight}},
		Rows:    [][]string{{"Rigel", "52°"}, {"Canopus, far too long", "65°"}, {"Acrux"}},
		Chosen:  chosen, First: first,
	}
}

func TestTheTableInFull(t *testing.T) {
	g := draw.NewGrid(20, 5)
	draw.Table(g.Whole(), draw.Unicode, smallTable(1, 0))
	require.Equal(t, ""+
		"  name           alt|\n"+
		"  Rigel          52°|\n"+
		"› Canopus, fa…   65°|\n"+
		"  Acrux             |\n"+
		"                    |\n", textOf(g))
	for x := range 20 {
		_, _, role := g.Cell(x, 2)
		assert.Equal(t, theme.Chosen, role, "column %d", x)
	}
}

func TestATableTellsWhatIsOutOfSight(t *testing.T) {
	g := draw.NewGrid(24, 3)
	draw.Table(g.Whole(), draw.Unicode, smallTable(1, 1))
	require.Equal(t, ""+
		"  name  2–3 of 3     alt|\n"+
		"› Canopus, far to…   65°|\n"+
		"  Acrux                 |\n", textOf(g))
}

func TestTheFirstRowFollowsTheChosenOne(t *testing.T) {
	cases := []struct {
		name                        string
		first, chosen, rows, height int
		want                        int
	}{
		{"all in sight", 0, 2, 3, 6, 0},
		{"chosen below the window", 0, 7, 20, 6, 3},
		{"chosen above the window", 9, 4, 20, 6, 4},
		{"chosen inside, nothing moves", 3, 5, 20, 6, 3},
		{"the list became shorter", 15, 2, 4, 6, 0},
		{"the last row", 0, 19, 20, 6, 15},
		{"no row chosen", 0, -1, 20, 6, 0},
		{"no height", 0, 3, 20, 0, 3},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, draw.TableFirst(c.first, c.chosen, c.rows, c.height))
		})
	}
}

func TestShorten(t *testing.T) {
	cases := []struct {
		text  string
		width int
		want  string
	}{
		{"Rigel", 5, "Rigel"}, {"Rigel", 4, "Rig…"}, {"Rigel", 1, "…"}, {"Rigel", 0, ""},
		{"月月月", 5, "月月…"}, {"月月月", 4, "月…"}, {"e\u0301e\u0301e\u0301", 2, "e\u0301…"},
	}
	for _, c := range cases {
		assert.Equal(t, c.want, draw.Shorten(draw.Unicode, c.text, c.width), "%q in %d", c.text, c.width)
	}
	assert.Equal(t, "Rig~", draw.Shorten(draw.ASCII, "Rigel", 4))
}
