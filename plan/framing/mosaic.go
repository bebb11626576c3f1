package framing

import (
	"duskhand/plan/kit"
	"duskhand/sky"
)

// UsualOverlap is what neighbours of a mosaic share if nothing is said, and Room how much larger than an object
// the area is that a field or a mosaic must hold to show it with some sky about it. Common practice.
const (
	UsualOverlap = 0.15
	Room         = 1.1
)

// Panel is one field of a mosaic. Row counts from the top, Column from the left, as an unmirrored picture
// with the chip's up on top shows them; both from 0.
type Panel struct {
	Row, Column int
	Centre      sky.J2000
	CameraAngle sky.Angle // J2000, at its own middle, so that it lies along the grid: near a pole it is not the grid's
}

// Mosaic is a grid of fields in the tangent plane of its middle.
type Mosaic struct {
	Rows, Columns int
	Overlap       float64 // of neighbours, as a share of a field's width and height, 0 up to but not 1
	Sensor        Sensor
	Middle        sky.J2000
	CameraAngle   sky.Angle // of the grid, J2000, at its middle
}

// NeededFor returns the fewest rows and columns, at least one each, whose fields together are as large as an
// area in the tangent plane.
func (m Mosaic) NeededFor(width, height sky.Angle) (rows, columns int) {
	w, h := m.Sensor.PlaneSize()
	count := func(whole, one sky.Angle) int {
		n := 1
		for step := one * sky.Angle(1-m.Overlap); step > 0 && one+step*sky.Angle(n-1) < whole; {
			n++
		}
		return n
	}
	return count(height, h), count(width, w)
}

// Size returns what the grid covers, in its tangent plane.
func (m Mosaic) Size() (width, height sky.Angle) {
	w, h := m.Sensor.PlaneSize()
	share := sky.Angle(1 - m.Overlap)
	return w * (1 + share*sky.Angle(m.Columns-1)), h * (1 + share*sky.Angle(m.Rows-1))
}

// Panels returns the fields of the grid, row by row.
//
// The centres are evenly spaced in the tangent plane. Seen from its own middle each field covers a little
// more of that plane than at the grid's middle, so that the overlap only grows outwards and no gap opens.
func (m Mosaic) Panels() []Panel {
	grid := NewChip(m.Sensor, m.Middle, m.CameraAngle)
	grid.Mirrored = false
	panels := make([]Panel, 0, max(0, m.Rows*m.Columns))
	for row := range m.Rows {
		for column := range m.Columns {
			chip := m.chipOf(grid, row, column)
			panels = append(panels, Panel{row, column, chip.Centre(), chip.CameraAngle()})
		}
	}
	return panels
}

func (m Mosaic) chipOf(grid Chip, row, column int) Chip {
	w, h := m.Sensor.PlaneSize()
	share := sky.Angle(1 - m.Overlap)
	return grid.beside(m.Sensor, kit.ChipOffset{
		Right: w * share * (sky.Angle(column) - sky.Angle(m.Columns-1)/2),
		Up:    h * share * (sky.Angle(m.Rows-1)/2 - sky.Angle(row)),
	}, 0)
}

// Chip returns the field of a panel on the sky.
func (m Mosaic) Chip(p Panel) Chip { return NewChip(m.Sensor, p.Centre, p.CameraAngle) }

// Serpentine returns the panels in an order in which each is a neighbour of the one before, along the shorter
// steps of the grid: the mount moves least. It begins in the corner whose panel sets first, the one with the
// smallest right ascension from the middle (most to the west).
func (m Mosaic) Serpentine() []Panel {
	panels := m.Panels()
	w, h := m.Sensor.PlaneSize()
	byRows := w <= h // walk along rows when the steps along them are the shorter
	ordered := make([]Panel, 0, len(panels))
	lines, each := m.Columns, m.Rows
	if byRows {
		lines, each = m.Rows, m.Columns
	}
	backward, mirrored := m.startsIn(panels)
	for i := range lines {
		for j := range each {
			line, at := i, j
			if i%2 == 1 {
				at = each - 1 - j
			}
			row, column := at, line
			if byRows {
				row, column = line, at
			}
			if backward {
				row = m.Rows - 1 - row
			}
			if mirrored {
				column = m.Columns - 1 - column
			}
			ordered = append(ordered, panels[row*m.Columns+column])
		}
	}
	return ordered
}

// startsIn tells from which corner the serpentine begins: from the last row, from the last column.
func (m Mosaic) startsIn(panels []Panel) (lastRow, lastColumn bool) {
	plane := NewTangentPlane(m.Middle)
	east := func(row, column int) sky.Angle {
		p, _ := plane.Project(panels[row*m.Columns+column].Centre)
		return p.East
	}
	if len(panels) == 0 {
		return false, false
	}
	west := east(0, 0)
	for _, r := range []int{0, m.Rows - 1} {
		for _, c := range []int{0, m.Columns - 1} {
			if e := east(r, c); e < west {
				west, lastRow, lastColumn = e, r != 0, c != 0
			}
		}
	}
	return lastRow, lastColumn
}
