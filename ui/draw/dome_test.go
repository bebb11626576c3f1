package draw_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/sky"
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// find returns the only cell of g with the rune r.
func find(t *testing.T, g *draw.Grid, r rune) (x, y int) {
	t.Helper()
	x, y = -1, -1
	for row := range g.Height() {
		for column := range g.Width() {
			if first, _, _ := g.Cell(column, row); first == r {
				require.Equal(t, -1, x, "%q is there twice", r)
				x, y = column, row
			}
		}
	}
	require.NotEqual(t, -1, x, "%q is nowhere in\n%s", r, textOf(g))
	return x, y
}

func domeOf(v draw.DomeValues) *draw.Grid {
	g := draw.NewGrid(81, 41) // odd, so that the zenith has a cell of its own
	draw.Dome(g.Whole(), draw.Unicode, v)
	return g
}

func oneStar(altitudeDeg, azimuthDeg float64) draw.DomeValues {
	return draw.DomeValues{Stars: []draw.DomeStar{{Place: at(altitudeDeg, azimuthDeg)}}}
}

// The horizon's radius on a grid of 81 × 41 cells is (41−2)·4/2 − ½ = 77.5 dots, the zenith is at cell
// 40, 20, and stereographic distances from it are tan(z/2) of the radius (Snyder 1987, eq. 21-4).
func TestStarsStandWhereTheEyeSeesThem(t *testing.T) {
	const radius = 77.5
	for _, altitude := range []float64{5, 20, 45, 75} {
		r := radius * math.Tan((90-altitude)*math.Pi/360)
		cases := []struct {
			name    string
			azimuth float64
			dx, dy  float64 // from the zenith, in dots, right and down
		}{
			{"north is up", 0, 0, -r},
			{"east is left", 90, -r, 0},
			{"south is down", 180, 0, r},
			{"west is right", 270, r, 0},
			{"north-east is up and left", 45, -r / math.Sqrt2, -r / math.Sqrt2},
			{"just west of north", 359.9, 0, -r},
		}
		for _, c := range cases {
			x, y := find(t, domeOf(oneStar(altitude, c.azimuth)), '●')
			assert.InDelta(t, 40+c.dx/2, x, 0.8, "%s, %v° up: column; half a cell and half a dot", c.name, altitude)
			assert.InDelta(t, 20+c.dy/4, y, 0.7, "%s, %v° up: row; half a cell and half a dot", c.name, altitude)
		}
	}
}

func TestTheCompassIsLetteredAsTheEyeSeesIt(t *testing.T) {
	g := domeOf(draw.DomeValues{})
	nx, ny := find(t, g, 'N')
	sx, sy := find(t, g, 'S')
	ex, ey := find(t, g, 'E')
	wx, wy := find(t, g, 'W')
	assert.Equal(t, [4]int{40, 40, 20, 20}, [4]int{nx, sx, ey, wy})
	assert.Less(t, ny, sy, "north is up")
	assert.Less(t, ex, wx, "east is left")
	assert.InDelta(t, 2*(sy-ny), wx-ex, 4, "a circle, as cells are twice as high as wide; two cells' margins")
}

func TestWhatIsDownOrBehindTheTreesIsNotDrawn(t *testing.T) {
	v := oneStar(20, 90)
	v.Stars[0].Label = "Name"
	shown := textOf(domeOf(v))
	require.Contains(t, shown, "●")
	require.Contains(t, shown, "Name")

	v.Horizon = func(sky.Angle) sky.Angle { return 25 * sky.Degree }
	hidden := textOf(domeOf(v))
	assert.NotContains(t, hidden, "●")
	assert.NotContains(t, hidden, "Name")
	assert.NotContains(t, textOf(domeOf(oneStar(-1, 90))), "●")
}

func TestBrightnessHasItsShape(t *testing.T) {
	for magnitude, want := range map[float64]rune{-1.4: '●', 0.6: '•', 2: '·'} {
		v := oneStar(45, 30)
		v.Stars[0].Magnitude = magnitude
		find(t, domeOf(v), want)
	}
	v := oneStar(45, 30)
	v.Stars[0].Magnitude = 4
	assert.NotContains(t, textOf(domeOf(v)), "·", "a single dot")
	assert.NotEqual(t, textOf(domeOf(draw.DomeValues{})), textOf(domeOf(v)))
}

// differing returns the columns and rows of the cells that are not alike in two grids.
func differing(a, b *draw.Grid) (cells [][2]int) {
	for y := range a.Height() {
		for x := range a.Width() {
			first, _, _ := a.Cell(x, y)
			if second, _, _ := b.Cell(x, y); first != second {
				cells = append(cells, [2]int{x, y})
			}
		}
	}
	return cells
}

// The keyhole's ring about an axis: stereographic circles are circles, from tan(z/2) of its nearest to
// that of its farthest zenith distance along the axis's azimuth.
func TestTheKeyholeIsACircleAboutTheMountsAxis(t *testing.T) {
	axis, radius := at(75, 90), 20.0
	ring := differing(domeOf(draw.DomeValues{}), domeOf(draw.DomeValues{
		Keyhole: draw.DomeRing{Centre: axis, Radius: sky.Angle(radius) * sky.Degree},
	}))
	require.Greater(t, len(ring), 20)
	far, near := 77.5*math.Tan(35*math.Pi/360), -77.5*math.Tan(5*math.Pi/360) // z = 15° ± 20°, east +
	centre, size := (far+near)/2, (far-near)/2
	for _, c := range ring {
		dx, dy := float64(c[0]-40)*2+centre, float64(c[1]-20)*4 // in dots; east is left
		assert.InDelta(t, size, math.Hypot(dx, dy), 3, "cell %v; the dots of a cell are up to 2.2 dots away", c)
	}
}

func TestThePairsLineIsAGreatCircle(t *testing.T) {
	// East and west at equal altitude: the great circle between them passes over the zenith.
	v := draw.DomeValues{Pair: []sky.Horizontal{at(40, 90), at(40, 270)}}
	for _, c := range differing(domeOf(draw.DomeValues{}), domeOf(v)) {
		assert.Equal(t, 20, c[1], "cell %v is off the prime vertical", c)
	}
	// Places with no one arc, and one place twice, draw no line and do no harm.
	for _, pair := range [][]sky.Horizontal{{at(0, 90), at(0, 270)}, {at(40, 90)}, {at(40, 90), at(40, 90)}} {
		assert.LessOrEqual(t, len(differing(domeOf(draw.DomeValues{}), domeOf(draw.DomeValues{Pair: pair}))), 1)
	}
}

func TestLabelsDontCoverStarsOrEachOther(t *testing.T) {
	v := draw.DomeValues{
		Stars: []draw.DomeStar{
			{Place: at(45, 30), Label: "Aaaa"}, {Place: at(46, 31), Label: "Bbbb"}, {Place: at(44, 28), Label: "Cccc"},
			{Place: at(47, 25), Magnitude: 2},
		},
		Marks: []draw.DomeMark{{Place: at(43, 33), Label: "Dddd"}},
	}
	with := domeOf(v)
	for i := range v.Stars {
		v.Stars[i].Label = ""
	}
	v.Marks[0].Label = ""
	without := domeOf(v)
	for y := range without.Height() {
		for x := range without.Width() {
			bare, _, _ := without.Cell(x, y)
			if labelled, _, _ := with.Cell(x, y); bare == '●' || bare == '·' || bare == '◇' {
				assert.Equal(t, string(bare), string(labelled), "column %d, row %d", x, y)
			}
		}
	}
	for _, word := range []string{"Dddd", "Aaaa"} {
		assert.Equal(t, 1, strings.Count(textOf(with), word), word)
	}
}

func TestTheTargetStaysOnTopOfTheMoon(t *testing.T) {
	g := domeOf(draw.DomeValues{Marks: []draw.DomeMark{
		{Place: at(40, 10), Kind: draw.TargetMark}, {Place: at(40, 10), Kind: draw.MoonMark},
	}})
	x, y := find(t, g, '◇')
	_, _, role := g.Cell(x, y)
	assert.Equal(t, theme.Mark, role)
}
