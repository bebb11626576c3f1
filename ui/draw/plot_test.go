package draw_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

func plotOf(points ...draw.PlotPoint) string {
	g := draw.NewGrid(12, 5)
	draw.Plot(g.Whole(), draw.Unicode, draw.PlotValues{
		From: night(0), To: night(10), Low: 0, High: 10, Now: night(-1),
		Heights: []draw.PlotTick{{Value: 0, Label: "0"}, {Value: 10, Label: "10"}, {Value: 99, Label: "9"}},
		Hours:   []draw.Tick{{At: night(5), Label: "mid"}},
		Curves:  []draw.PlotCurve{{Role: theme.Line, Points: points}},
	})
	return textOf(g)
}

func TestPlots(t *testing.T) {
	cases := []struct {
		name   string
		points []draw.PlotPoint
		want   [3]string
	}{
		{"nothing", nil, [3]string{"         ", "         ", "         "}},
		{"high all night", []draw.PlotPoint{{At: night(0), Value: 10}, {At: night(10), Value: 10}},
			[3]string{"⠉⠉⠉⠉⠉⠉⠉⠉⠉", "         ", "         "}},
		{"low at first, then not known, then high", []draw.PlotPoint{
			{At: night(0), Value: 0}, {At: night(2), Value: 0}, {At: night(8), Value: 10, Gap: true}, {At: night(10), Value: 10},
		}, [3]string{"       ⠉⠉", "         ", "⣀⣀       "}},
		{"off the paper", []draw.PlotPoint{{At: night(0), Value: 50}, {At: night(10), Value: 40}},
			[3]string{"         ", "         ", "         "}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, ""+
				"10┤"+c.want[0]+"|\n"+
				"  │"+c.want[1]+"|\n"+
				" 0┤"+c.want[2]+"|\n"+
				"  └────┬────|\n"+
				"      mid   |\n", plotOf(c.points...))
		})
	}
}

func TestAnEmptyRangeDrawsNothing(t *testing.T) {
	g := draw.NewGrid(12, 5)
	draw.Plot(g.Whole(), draw.Unicode, draw.PlotValues{From: night(1), To: night(1), Low: 0, High: 1})
	draw.Plot(g.Whole(), draw.Unicode, draw.PlotValues{From: night(1), To: night(2), Low: 1, High: 1})
	require.NotContains(t, textOf(g), "│")
}

func TestSparklines(t *testing.T) {
	samples := []draw.Sample{{Value: 9}, {Value: 0}, {Value: 3}, {Missing: true}, {Value: 7}, {Value: 99}, {Value: -5}}
	g := draw.NewGrid(6, 2)
	draw.Sparkline(g.Area(0, 0, 6, 1), draw.Unicode, theme.Text, samples, 0, 7)
	draw.Sparkline(g.Area(0, 1, 6, 1), draw.ASCII, theme.Text, samples, 0, 7)
	require.Equal(t, "▁▄ ██▁|\n_. ==_|\n", textOf(g), "the last six")
}

func TestASparklineOfOneLevelIsFlat(t *testing.T) {
	g := draw.NewGrid(2, 1)
	draw.Sparkline(g.Whole(), draw.Unicode, theme.Text, []draw.Sample{{Value: 3}, {Value: 3}}, 3, 3)
	require.Equal(t, "▁▁|\n", textOf(g))
}
