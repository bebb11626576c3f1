package facts

import (
	"time"

	"duskhand/plan/framing"
)

// Mosaic is a grid of fields and its night.
type Mosaic struct {
	Grid   framing.Mosaic
	Panels []framing.Panel // in the order in which they are visited
	Night  framing.MosaicNight
}

// Moving from one panel to its neighbour, with the settling that follows, and the least time on a panel that
// is worth it. Common practice.
const (
	panelMove  = 45 * time.Second
	leastPanel = 5 * time.Minute
)

func (f *Frame) panels(r Run) {
	if f.Framing.Rows*f.Framing.Columns <= 1 {
		return
	}
	t := f.tonight
	m := Mosaic{Grid: framing.Mosaic{Rows: f.Framing.Rows, Columns: f.Framing.Columns, Overlap: f.Framing.Overlap,
		Sensor: f.Sensor, Middle: f.Chip.Centre(), CameraAngle: f.Chip.CameraAngle()}}
	if f.Wanted != nil {
		m.Grid.CameraAngle = f.Wanted.CameraAngle
	}
	m.Panels = m.Grid.Serpentine()
	m.Night = framing.MosaicPlan{Night: t.Night, Axis: t.Axis, Mosaic: m.Grid, Move: panelMove, Shortest: leastPanel, From: r.Now}.Plan()
	f.Mosaic = &m
}

// NeededPanels returns the fewest rows and columns that hold the whole object, with a tenth of room about it.
func (f Frame) NeededPanels(overlap float64) (rows, columns int, ok bool) {
	e, ok := framing.OutlineOf(f.Target.Object)
	if !ok {
		return 0, 0, false
	}
	width, height := e.Box(f.Chip.CameraAngle())
	m := framing.Mosaic{Sensor: f.Sensor, Overlap: overlap}
	rows, columns = m.NeededFor(framing.Room*width, framing.Room*height)
	return rows, columns, true
}
