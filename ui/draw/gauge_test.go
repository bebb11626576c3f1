package draw_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/sky"
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// gaugeOf draws a travel of −10° to +10° with 21 columns between the labels: a degree a column, with
// −10° at column 5.
func gaugeOf(v draw.GaugeValues) *draw.Grid {
	v.Min, v.Max = -10*sky.Degree, 10*sky.Degree
	g := draw.NewGrid(31, 2)
	draw.Gauge(g.Whole(), draw.Unicode, v)
	return g
}

func TestTheGaugesMarkerIsAtItsAngle(t *testing.T) {
	cases := []struct {
		name       string
		nowDeg     float64
		wantColumn int
		wantRole   theme.Role
	}{
		{"at the middle", 0, 15, theme.Mark},
		{"a little on", 3.4, 18, theme.Mark},
		{"a little back", -3.6, 11, theme.Mark},
		{"at the lower limit", -10, 5, theme.Mark},
		{"at the upper limit", 10, 25, theme.Mark},
		{"beyond the upper limit", 10.2, 25, theme.Caution},
		{"beyond the lower limit", -11, 5, theme.Caution},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			g := gaugeOf(draw.GaugeValues{Now: sky.Angle(c.nowDeg) * sky.Degree})
			marker := '▲'
			if c.wantRole == theme.Caution {
				marker = '!' // the shape tells it too
			}
			x, y := find(t, g, marker)
			_, _, role := g.Cell(x, y)
			assert.Equal(t, c.wantColumn, x)
			assert.Equal(t, 0, y)
			assert.Equal(t, c.wantRole, role)
		})
	}
}

func TestTheGaugesArrowPointsWhereItTurns(t *testing.T) {
	assert.Contains(t, textOf(gaugeOf(draw.GaugeValues{Turning: +1})), "▲▸─")
	assert.Contains(t, textOf(gaugeOf(draw.GaugeValues{Turning: -1})), "─◂▲")
	assert.Contains(t, textOf(gaugeOf(draw.GaugeValues{})), "─▲─")
}

func TestTheGaugeInFull(t *testing.T) {
	g := gaugeOf(draw.GaugeValues{
		Now: 6 * sky.Degree, NowLabel: "now", Turning: +1,
		Marks: []draw.GaugeMark{{At: -8 * sky.Degree, Label: "start"}, {At: 7 * sky.Degree, Label: "too near"}},
	})
	require.Equal(t, ""+
		"−10° ├─┬───────┼─────▲▸──┤ +10°|\n"+
		"     start          now        |\n", textOf(g))
}

func TestAGaugeWithoutTravelDoesNoHarm(t *testing.T) {
	g := draw.NewGrid(31, 2)
	draw.Gauge(g.Whole(), draw.Unicode, draw.GaugeValues{})
	require.Equal(t, "0° !───────────────────────┤ 0°|\n                               |\n", textOf(g))
}
