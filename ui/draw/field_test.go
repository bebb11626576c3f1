package draw_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/ui/draw"
)

func fieldOf(v draw.FieldValues) *draw.Grid {
	g := draw.NewGrid(81, 41)
	draw.Field(g.Whole(), draw.Unicode, v)
	return g
}

// Half the height of 41 rows is 81.5 dots, and the middle is at column 40, row 20.
func TestStarsOfAFieldStandAtTrueProportions(t *testing.T) {
	for _, c := range []struct {
		name        string
		spot        draw.Spot
		column, row float64
	}{
		{"the middle", draw.Spot{}, 40, 20},
		{"up", draw.Spot{Up: 0.5}, 40, 20 - 81.5*0.5/4},
		{"down", draw.Spot{Up: -0.9}, 40, 20 + 81.5*0.9/4},
		{"as far right as up: twice as many cells", draw.Spot{Right: 0.5}, 40 + 81.5*0.5/2, 20},
		{"left and down", draw.Spot{Right: -0.8, Up: -0.3}, 40 - 81.5*0.8/2, 20 + 81.5*0.3/4},
	} {
		x, y := find(t, fieldOf(draw.FieldValues{Stars: []draw.FieldStar{{Spot: c.spot}}, Steps: [3]float64{6, 8, 10}}), '●')
		assert.InDelta(t, c.column, x, 0.8, c.name) // half a cell and half a dot
		assert.InDelta(t, c.row, y, 0.7, c.name)
	}
}

func TestFieldWidthIsThatOfTheCells(t *testing.T) {
	assert.InDelta(t, 2, draw.FieldWidth(80, 40), 1e-9, "twice as many columns as rows is a square")
	assert.InDelta(t, 4, draw.FieldWidth(160, 40), 1e-9)
}

// What lies outside, however far, or nowhere, is left out and does no harm.
func TestWhatIsOutsideAFieldIsLeftOut(t *testing.T) {
	empty := fieldOf(draw.FieldValues{})
	for _, spot := range []draw.Spot{{Right: 5}, {Up: -3}, {Right: math.Inf(1), Up: math.Inf(1)}, {Right: math.NaN()}, {Right: 1e300}} {
		v := draw.FieldValues{
			Stars: []draw.FieldStar{{Spot: spot, Label: "star"}}, Names: []draw.FieldName{{Spot: spot, Text: "name"}},
			Lines: []draw.FieldLine{{Spots: []draw.Spot{spot, spot}}},
		}
		assert.Equal(t, textOf(empty), textOf(fieldOf(v)), "%v", spot)
	}
}

func TestArmsOfTheCompassPointWhereTheSkyDoes(t *testing.T) {
	for _, c := range []struct {
		name        string
		north, east draw.Spot
		up, left    bool // N above E's row; E left of N
	}{
		{"north up, east left", draw.Spot{Up: 1}, draw.Spot{Right: -1}, true, true},
		{"upside down", draw.Spot{Up: -1}, draw.Spot{Right: 1}, false, false},
		{"mirrored", draw.Spot{Up: 1}, draw.Spot{Right: 1}, true, false},
	} {
		g := fieldOf(draw.FieldValues{North: c.north, East: c.east})
		nx, ny := find(t, g, 'N')
		ex, ey := find(t, g, 'E')
		assert.Equal(t, c.up, ny < ey, c.name)
		assert.Equal(t, c.left, ex < nx, c.name)
	}
}
