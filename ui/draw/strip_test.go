package draw_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/sky"
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// stripOf draws one row of 41 columns for ten hours: four columns an hour.
func stripOf(v draw.StripValues) *draw.Grid {
	v.From, v.To = night(0), night(10)
	g := draw.NewGrid(41, 1)
	draw.NightStrip(g.Whole(), draw.Unicode, v)
	return g
}

func TestTheStripsMarkerIsAtItsInstant(t *testing.T) {
	for hours, want := range map[float64]int{0: 0, 2.5: 10, 5: 20, 10: 40} {
		x, _ := find(t, stripOf(draw.StripValues{Now: night(hours)}), '●')
		assert.Equal(t, want, x, "%v h", hours)
	}
	for _, hours := range []float64{-0.1, 10.1} {
		assert.NotContains(t, textOf(stripOf(draw.StripValues{Now: night(hours)})), "●", "%v h", hours)
	}
}

func TestTheStripsTwilightIsAsHighAsTheSkyIsBright(t *testing.T) {
	row := []rune(textOf(stripOf(draw.StripValues{
		Now: night(-1), Sun: []sky.Angle{0, -36 * sky.Degree, 0}, // −18°, where it gets dark, at 2.5 and 7.5 h
	})))
	assert.Equal(t, '█', row[0])
	assert.Equal(t, '█', row[40])
	assert.Equal(t, '▁', row[10])
	assert.Equal(t, '▁', row[30])
	assert.Equal(t, strings.Repeat("─", 19), string(row[11:30]), "dark")
	for x := 1; x <= 10; x++ {
		assert.LessOrEqual(t, row[x], row[x-1], "the sky darkens, column %d", x)
	}
}

func TestANightThatNeverGetsDarkHasNoLine(t *testing.T) {
	text := textOf(stripOf(draw.StripValues{Now: night(-1), Sun: []sky.Angle{0, -9 * sky.Degree, 0}}))
	assert.NotContains(t, text, "─")
	assert.Contains(t, text, "▅", "half-way to −18° is the height 3½ of 0 to 7")
}

func TestRunsHaveTheirBracketsAndRewinds(t *testing.T) {
	v := draw.StripValues{Now: night(-1), Runs: []draw.StripRun{
		{From: night(1), To: night(4), Label: "run 1"},
		{From: night(4.05), To: night(7), Label: "run 2", Rewound: true},
		{From: night(8), To: night(9), Label: "run 3", Rewound: true},
	}}
	require.Equal(t, "────┤run 1      ├r┤run 2    ├──r┤3  ├────|\n", textOf(stripOf(v)))
}

func TestRunsBeyondTheEndsAreCut(t *testing.T) {
	v := draw.StripValues{Now: night(-1), Runs: []draw.StripRun{
		{From: night(-3), To: night(-2), Label: "gone"}, {From: night(-1), To: night(2), Label: "a"},
		{From: night(9), To: night(12), Label: "b"}, {From: night(13), To: night(14), Label: "later"},
	}}
	text := textOf(stripOf(v))
	assert.Equal(t, "┤a      ├", string([]rune(text)[:9]))
	assert.Equal(t, "┤b  ├|\n", string([]rune(text)[36:]))
}

func TestTheRunsLabelMakesWayForTheMarker(t *testing.T) {
	run := []draw.StripRun{{From: night(2), To: night(8), Label: "run 1"}}
	assert.Contains(t, textOf(stripOf(draw.StripValues{Now: night(2.5), Runs: run})), "┤ ● run 1")
	assert.Contains(t, textOf(stripOf(draw.StripValues{Now: night(4), Runs: run})), "┤run 1  ●")
}

func TestTheRunOfNowIsBrighterAndPastOnesFaint(t *testing.T) {
	g := stripOf(draw.StripValues{Now: night(5), Runs: []draw.StripRun{
		{From: night(1), To: night(3), Label: "a"}, {From: night(4), To: night(6), Label: "b"},
		{From: night(7), To: night(9), Label: "c"},
	}})
	for r, want := range map[rune]theme.Role{'a': theme.Faint, 'b': theme.Text, 'c': theme.Line} {
		x, y := find(t, g, r)
		_, _, role := g.Cell(x, y)
		assert.Equal(t, want, role, "%c", r)
	}
}
