package frame

import (
	"fmt"
	"math"

	"duskhand/checklist/advice"
	"duskhand/plan/framing"
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// axisStroke is half the length of the strokes that mark the derotator's axis, of half the drawing's height.
const axisStroke = 0.06

// derotatorAxis is the place about which the field turns at a rewind: a slanted cross, and round it one σ where it was
// learned, however small.
func (p projection) derotatorAxis(chip framing.Chip, axis advice.CameraAxis) (lines []draw.FieldLine, name draw.FieldName) {
	at := p.spot(chip.Sky(axis.At))
	for _, slant := range []float64{-1, 1} {
		lines = append(lines, draw.FieldLine{Role: theme.Mark, Spots: []draw.Spot{
			{Right: at.Right - axisStroke, Up: at.Up - slant*axisStroke}, {Right: at.Right + axisStroke, Up: at.Up + slant*axisStroke}}})
	}
	name = draw.FieldName{Spot: at, Text: "axis", Role: theme.Text}
	if axis.Sigma <= 0 {
		return lines, name
	}
	name.Text = fmt.Sprintf("axis ± %.0f", axis.Sigma)
	round := draw.FieldLine{Closed: true, Dashed: true, Role: theme.Mark}
	for i := range ellipsePlaces {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / ellipsePlaces)
		round.Spots = append(round.Spots, p.spot(chip.Sky(framing.Pixel{X: axis.At.X + axis.Sigma*cos, Y: axis.At.Y + axis.Sigma*sin})))
	}
	return append(lines, round), name
}
