package framing_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

func exampleMosaic(rows, columns int) framing.Mosaic {
	k := kit.Example()
	return framing.Mosaic{Rows: rows, Columns: columns, Overlap: 0.15, Sensor: framing.MainSensor(k),
		Middle: k.Targets[0].Star.Place, CameraAngle: 40 * sky.Degree}
}

func TestPanelsByHand(t *testing.T) {
	m := framing.Mosaic{Rows: 2, Columns: 3, Overlap: 0.25, CameraAngle: 0, Middle: sky.J2000{RA: 80 * sky.Degree},
		Sensor: sensor{Width: 1200, Height: 800, PerPixel: sky.Arcsecond}}
	plane := framing.NewTangentPlane(m.Middle)
	// Steps of 1200 × ¾ = 900″ and 800 × ¾ = 600″; the first row is north, the first column is east.
	want := [][2]float64{{900, 300}, {0, 300}, {-900, 300}, {900, -300}, {0, -300}, {-900, -300}}
	panels := m.Panels()
	require.Len(t, panels, 6)
	for i, p := range panels {
		assert.Equal(t, [2]int{i / 3, i % 3}, [2]int{p.Row, p.Column})
		at, ok := plane.Project(p.Centre)
		require.True(t, ok)
		assert.InDelta(t, want[i][0], at.East.Arcseconds(), 1e-6)
		assert.InDelta(t, want[i][1], at.North.Arcseconds(), 1e-6)
		assert.InDelta(t, 0, Signed(p.CameraAngle), 0.001) // on the equator north hardly turns: 900″ × sin 300″
	}
	width, height := m.Size()
	assert.InDelta(t, 3000, width.Arcseconds(), 1e-6)  // 1200 + 2 × 900
	assert.InDelta(t, 1400, height.Arcseconds(), 1e-6) // 800 + 600
}

func TestRowsAndColumnsForAnObject(t *testing.T) {
	m := framing.Mosaic{Overlap: 0.2, Sensor: sensor{Width: 1000, Height: 500, PerPixel: sky.Arcsecond}}
	tests := []struct {
		name          string
		width, height float64
		rows, columns int
	}{
		{"smaller than a field", 300, 300, 1, 1},
		{"as wide as a field", 1000, 500, 1, 1},
		{"a little wider", 1001, 500, 1, 2},
		{"just two and three", 1800, 1300, 3, 2}, // 1000 + 800; 500 + 400 + 400
		{"just more than that", 1801, 1301, 4, 3},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			// A millionth of a second less keeps rounding off the edge.
			rows, columns := m.NeededFor(sky.Angle(test.width-1e-6)*sky.Arcsecond, sky.Angle(test.height-1e-6)*sky.Arcsecond)
			assert.Equal(t, test.rows, rows)
			assert.Equal(t, test.columns, columns)
		})
	}
}

// No gap opens between the panels, wherever the mosaic is: every point of the grid's area, and each neighbour's
// strip of overlap, lies on a panel.
func TestPanelsLeaveNoGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := framing.Mosaic{
			Rows: rapid.IntRange(1, 4).Draw(t, "rows"), Columns: rapid.IntRange(1, 4).Draw(t, "columns"),
			Overlap: rapid.Float64Range(0.02, 0.5).Draw(t, "overlap"),
			Middle:  anyPlace(t), CameraAngle: anyAngle(t, "angle", 0, 360),
			Sensor: sensor{Width: 6248, Height: 4176, PerPixel: sky.Angle(rapid.Float64Range(0.5, 4).Draw(t, "scale")) * sky.Arcsecond},
		}
		width, height := m.Size()
		grid := framing.NewChip(m.Sensor, m.Middle, m.CameraAngle)
		at := framing.Pixel{
			X: rapid.Float64Range(-0.5, 0.5).Draw(t, "x") * float64(width/m.Sensor.PerPixel),
			Y: rapid.Float64Range(-0.5, 0.5).Draw(t, "y") * float64(height/m.Sensor.PerPixel),
		}
		place := grid.Sky(at)
		on := 0
		for _, p := range m.Panels() {
			if m.Chip(p).Contains(place) {
				on++
			}
		}
		// At the outer corner of a wide grid a field's own plane is turned by a hair; 0.2 % of the edge are left out.
		edge := 2*at.X > float64(width/m.Sensor.PerPixel)*0.998 || -2*at.X > float64(width/m.Sensor.PerPixel)*0.998 ||
			2*at.Y > float64(height/m.Sensor.PerPixel)*0.998 || -2*at.Y > float64(height/m.Sensor.PerPixel)*0.998
		require.True(t, on > 0 || edge, "%v of %v panels", at, len(m.Panels()))
	})
}

func TestSerpentineVisitsNeighboursFromTheWest(t *testing.T) {
	for _, shape := range [][2]int{{1, 1}, {2, 3}, {3, 2}, {3, 3}, {1, 4}, {4, 1}} {
		for _, angle := range []float64{0, 80, 170, 300} {
			m := exampleMosaic(shape[0], shape[1])
			m.CameraAngle = sky.Angle(angle) * sky.Degree
			order := m.Serpentine()
			require.Len(t, order, shape[0]*shape[1])
			visited := map[[2]int]bool{}
			plane := framing.NewTangentPlane(m.Middle)
			first, _ := plane.Project(order[0].Centre)
			for i, p := range order {
				visited[[2]int{p.Row, p.Column}] = true
				at, _ := plane.Project(p.Centre)
				assert.GreaterOrEqual(t, at.East, first.East-1e-12, "none stands further west than the first")
				if i > 0 {
					step := abs(p.Row-order[i-1].Row) + abs(p.Column-order[i-1].Column)
					assert.Equal(t, 1, step, "%v at %v°: each is a neighbour of the one before", shape, angle)
				}
			}
			assert.Len(t, visited, len(order), "each once")
		}
	}
	assert.Empty(t, exampleMosaic(0, 3).Serpentine())
}

func abs(i int) int { return max(i, -i) }

func exampleMosaicPlan(rows, columns int, change func(*kit.Kit)) framing.MosaicPlan {
	k := kit.Example()
	change(&k)
	return framing.MosaicPlan{Night: plan.NewNight(k, exampleDate), Axis: k.Axis, Mosaic: exampleMosaic(rows, columns),
		Move: 90 * time.Second, Shortest: 3 * time.Minute}
}

// Every run serves all panels for equal times at one camera angle, each panel's derotator reading within the
// travel from the beginning of the run to its end, and the panel before a rewind is the one after it.
func TestMosaicSharesItsRuns(t *testing.T) {
	for _, shape := range [][2]int{{1, 1}, {2, 2}, {2, 3}} {
		p := exampleMosaicPlan(shape[0], shape[1], func(*kit.Kit) {})
		night := p.Plan()
		require.GreaterOrEqual(t, len(night.Runs), 2)
		courses := map[[2]int]*plan.Course{}
		for _, panel := range p.Mosaic.Panels() {
			courses[[2]int{panel.Row, panel.Column}] = p.Night.Course(kit.Target{Star: sky.Star{Place: panel.Centre}}, p.Axis)
		}
		d := p.Night.Kit.Derotator
		var gained time.Duration
		for i, run := range night.Runs {
			require.Len(t, run.Visits, shape[0]*shape[1])
			for j, v := range run.Visits {
				gained += v.Length()
				assert.Equal(t, run.Visits[0].Length(), v.Length(), "equal times")
				assert.GreaterOrEqual(t, v.Length(), p.Shortest)
				assert.False(t, v.From.Before(run.From) || v.To.After(run.To.Add(time.Second)), "within the run")
				if j > 0 {
					assert.Equal(t, p.Move, v.From.Sub(run.Visits[j-1].To), "a move between")
				}
				c := courses[[2]int{v.Panel.Row, v.Panel.Column}]
				for _, at := range []time.Time{v.From, v.To} {
					reading := c.Angle(plan.Anchor{At: v.From, Angle: v.Reading}, at)
					assert.True(t, reading >= d.Min && reading <= d.Max, "run %d, panel %d: %v", i, j, reading)
				}
				onGrid := c.CameraAngle(v.Reading, v.From) - (v.Panel.CameraAngle - p.Mosaic.CameraAngle)
				assert.InDelta(t, 0, Signed(onGrid-run.CameraAngle), 1e-6, "one camera angle along the grid")
			}
			if i > 0 {
				before := night.Runs[i-1]
				assert.Equal(t, before.Visits[len(before.Visits)-1].Panel, run.Visits[0].Panel)
				assert.False(t, run.From.Before(before.To.Add(run.Rewind-time.Second)), "the rewind has its time")
			}
		}
		assert.InDelta(t, gained.Seconds(), night.Gained.Seconds(), 0.001)
		assert.Greater(t, night.Wasted, time.Duration(0))
		t.Logf("%v: %d runs, %v on panels, %v wasted", shape, len(night.Runs), night.Gained.Round(time.Minute), night.Wasted.Round(time.Minute))
	}
}

// A mosaic of one panel is an object: as many runs as the plan has for it, give or take the waits for subs.
func TestMosaicOfOnePanelNeedsThePlansRewinds(t *testing.T) {
	p := exampleMosaicPlan(1, 1, func(k *kit.Kit) {
		k.Subs.Filters[0].Count = 100000
		k.Subs.Loop, k.Subs.WorthARewind = 0, 0 // a mosaic weighs no rewind
	})
	course := p.Night.Course(kit.Target{Star: sky.Star{Place: p.Mosaic.Middle}}, p.Axis)
	plain := course.Schedule(plan.Start{At: p.Night.Span.From}, plan.NewSequence(p.Night.Kit.Subs))
	p.Shortest = 30 * time.Second // the plan's last run is of four subs
	night := p.Plan()
	require.Len(t, night.Runs, len(plain.Runs))
	for i := range night.Runs {
		assert.WithinDuration(t, plain.Runs[i].From, night.Runs[i].From, 10*time.Minute) // subs leave up to one unused each run
	}
}

func TestAStageOfTwoEndsGetsNoMosaic(t *testing.T) {
	p := exampleMosaicPlan(2, 2, func(k *kit.Kit) { k.Derotator.StopsAnywhere = false })
	assert.Empty(t, p.Plan().Runs)
	assert.Empty(t, exampleMosaicPlan(0, 2, func(*kit.Kit) {}).Plan().Runs)
}

func BenchmarkMosaicNight(b *testing.B) {
	p := exampleMosaicPlan(2, 3, func(*kit.Kit) {})
	for b.Loop() {
		p.Plan()
	}
}
