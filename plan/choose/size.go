package choose

import (
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Fit says how an object fits the chip.
type Fit int

// The fits.
const (
	NotKnown Fit = iota // the object's size or the field's
	Tiny                // under a thirtieth of the field's shorter side
	Small               // under a tenth
	Fits                // with room, at some camera angle
	Larger              // one field shows a part of it, or a mosaic all
)

// String says the fit in a word.
func (f Fit) String() string { return [...]string{"not known", "tiny", "small", "fits", "larger"}[f] }

// The shares of the field's shorter side below which an object is small and tiny: common practice.
const (
	tinyBelow  = 1.0 / 30
	smallBelow = 1.0 / 10
)

// Size is an object against the field.
type Size struct {
	Fit           Fit
	Object        framing.Ellipse // of no size if not known
	Width, Height sky.Angle       // of the field; 0 if not known
	OfSide        float64         // the object's long axis over the field's shorter side
	Shown         float64         // share of the object's area that one field holds at the best camera angle
	Rows, Columns int             // of the least mosaic that holds it all, columns along the object
	Lacks         []string        // keys of the kit without which the field is not known
}

// Panels returns how many fields the whole object needs, at least 1.
func (s Size) Panels() int { return max(1, s.Rows*s.Columns) }

// lacksField names the values that the kit must have for the field's size, none if it has them.
func lacksField(k kit.Kit) (lacks []string) {
	for _, value := range []struct {
		key   string
		given bool
	}{
		{"optics.focal_length_mm", k.Optics.FocalLengthMM > 0},
		{"camera.pixel_um", k.Camera.PixelUM > 0},
		{"camera.width_px", k.Camera.Width > 0},
		{"camera.height_px", k.Camera.Height > 0},
	} {
		if !value.given {
			lacks = append(lacks, value.key)
		}
	}
	return lacks
}

func (n *Night) sizeOf(target kit.Target) Size {
	outline, known := framing.OutlineOf(target.Object)
	s := Size{Object: outline}
	if len(n.lacks) > 0 {
		s.Lacks = n.lacks
		return s
	}
	s.Width, s.Height = n.field.PlaneSize()
	if !known {
		return s
	}
	long, short := max(s.Width, s.Height), min(s.Width, s.Height)
	s.OfSide = float64(outline.Major / short)
	s.Rows, s.Columns, s.Shown = 1, 1, 1
	switch {
	case framing.Room*outline.Major > long || framing.Room*outline.Minor > short:
		s.Fit, s.Shown = Larger, shownOf(outline, long, short)
		s.Rows, s.Columns = leastGrid(n.field, outline)
	case s.OfSide < tinyBelow:
		s.Fit = Tiny
	case s.OfSide < smallBelow:
		s.Fit = Small
	default:
		s.Fit = Fits
	}
	return s
}

// leastGrid tries the field both along and across the object, which leaves a margin within the grid.
func leastGrid(field framing.Sensor, outline framing.Ellipse) (rows, columns int) {
	for range 2 {
		field.Width, field.Height = field.Height, field.Width
		grid := framing.Mosaic{Overlap: framing.UsualOverlap, Sensor: field}
		r, c := grid.NeededFor(framing.Room*outline.Major, framing.Room*outline.Minor)
		if rows == 0 || r*c < rows*columns {
			rows, columns = r, c
		}
	}
	return rows, columns
}

// shownOf returns the share of an ellipse in a field whose long side lies along it.
func shownOf(outline framing.Ellipse, long, short sky.Angle) float64 {
	outline.PositionAngle = 90 * sky.Degree // along the field's right, with its up to the north
	corners := []plan.FieldPoint{
		{Right: -long / 2, Up: -short / 2}, {Right: long / 2, Up: -short / 2},
		{Right: long / 2, Up: short / 2}, {Right: -long / 2, Up: short / 2},
	}
	return outline.ShareWithin(corners, 0, framing.PlanePoint{})
}
