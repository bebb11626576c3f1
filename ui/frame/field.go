// Package frame shows how the target stands on the chip: the field as values that any drawing takes, and
// what there is to say of it, for the Frame screen, the command and the page.
package frame

import (
	"fmt"
	"math"

	"duskhand/plan/framing"
	"duskhand/sky"
	"duskhand/sky/catalog"
	"duskhand/sky/catalog/deep"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/theme"
)

// mostStars is how many stars a field shows at most: more would be a fog, and slow.
const mostStars = 320

// closer is what one step of the zoom is worth.
const closer = 1.25

// View is how a field is looked at: Zoom in steps closer than the usual, negative for wider, and AsCamera
// with the chip's up on top instead of north.
type View struct {
	Zoom     int
	AsCamera bool
}

// half is half the height of the drawing on the sky: the chip at any angle, the object and a mosaic fit.
func (v View) half(f facts.Frame) sky.Angle {
	width, height := f.Sensor.PlaneSize()
	half := sky.Angle(math.Hypot(float64(width), float64(height))) / 2
	if f.Mosaic != nil {
		width, height = f.Mosaic.Grid.Size()
		half = max(half, sky.Angle(math.Hypot(float64(width), float64(height)))/2)
	}
	if e, ok := framing.OutlineOf(f.Target.Object); ok {
		half = max(half, e.Major/2)
	}
	half += max(f.Framing.Middle.East.Abs(), f.Framing.Middle.North.Abs())
	return half * 11 / 10 / sky.Angle(math.Pow(closer, float64(v.Zoom)))
}

// Of returns the drawing as a chip of its own, whose pixels are half the drawing's height: north up and the
// object in the middle, or as the camera sees it.
func (v View) Of(f facts.Frame) framing.Chip {
	sensor := framing.Sensor{Width: 2, Height: 2, PerPixel: v.half(f)}
	if !v.AsCamera {
		return framing.NewChip(sensor, f.Target.Star.Place, 0)
	}
	sensor.Mirrored = f.Sensor.Mirrored
	return framing.NewChip(sensor, f.Chip.Centre(), f.Chip.CameraAngle())
}

// CloseEnough is how near to the wanted angle a chip may stand to be said to stand there: as well as a
// derotator's scale is read.
const CloseEnough = 0.5 * sky.Degree

// Field returns what a drawing shows that is as wide as so many halves of its height.
func (v View) Field(f facts.Frame, width float64) draw.FieldValues {
	p := projection{v.Of(f)}
	radius := p.view.PerPixel * sky.Angle(math.Hypot(1, width/2))
	field := draw.FieldValues{North: p.way(0), East: p.way(90 * sky.Degree)}
	field.Stars, field.Steps = p.stars(p.view.Centre(), radius)
	field.Lines = append(field.Lines, p.common(f)...)
	if g := f.Guide; g != nil {
		field.Lines = append(field.Lines, p.outline(g.Chip, theme.Line, true))
		field.Names = append(field.Names, draw.FieldName{Spot: p.spot(g.Chip.Corners()[0]), Text: guideName(g.OffsetIn), Role: theme.Faint})
	}
	if f.Mosaic != nil {
		for _, panel := range f.Mosaic.Panels {
			field.Lines = append(field.Lines, p.outline(f.Mosaic.Grid.Chip(panel), theme.Line, false))
			field.Names = append(field.Names, draw.FieldName{Spot: p.spot(panel.Centre), Text: PanelName(panel), Role: theme.Text})
		}
	}
	if w := f.Wanted; w != nil && w.Off.Abs() >= CloseEnough {
		field.Lines = append(field.Lines, p.outline(w.Chip, theme.Mark, true))
	}
	field.Lines = append(field.Lines, p.outline(f.Chip, theme.Answer, false), p.upTick(f.Chip))
	if f.Axis != nil {
		lines, name := p.derotatorAxis(f.Chip, *f.Axis)
		field.Lines, field.Names = append(field.Lines, lines...), append(field.Names, name)
	}
	lines, names := p.objects(f.Target, radius)
	field.Lines, field.Names = append(field.Lines, lines...), append(field.Names, names...)
	field.ScaleSize, field.ScaleLabel = scaleBar(p.view.PerPixel, width)
	middle := p.spot(f.Chip.Centre())
	field.Cross = &middle
	return field
}

// guideName marks the guide field that is only supposed to look where the main one does.
func guideName(offsetKnown bool) string {
	if offsetKnown {
		return "guide"
	}
	return "guide?"
}

// LeftOut says what the drawing leaves out.
func (v View) LeftOut(f facts.Frame) string {
	view := v.Of(f)
	limit := deep.Limits(view.Centre(), view.PerPixel*7/5) // the drawing's corners
	if limit.Stars > mostStars {
		return fmt.Sprintf("Drawn: the %d brightest stars of %d known here.", mostStars, limit.Stars)
	}
	return fmt.Sprintf("Drawn: every star to magnitude %.1f, some to %.1f.", limit.CompleteTo, limit.Faintest)
}

// PanelName is a panel's row and column, as the drawing has them from the upper left.
func PanelName(p framing.Panel) string { return fmt.Sprintf("%c%d", 'A'+rune(p.Row), p.Column+1) }

// projection takes places on the sky to the drawing.
type projection struct{ view framing.Chip }

// spot returns where a place is drawn; far outside if it lies behind.
func (p projection) spot(place sky.J2000) draw.Spot {
	pixel, ok := p.view.Pixel(place)
	if !ok {
		return draw.Spot{Right: math.Inf(1), Up: math.Inf(1)}
	}
	return draw.Spot{Right: pixel.X, Up: pixel.Y}
}

// way returns the direction of a position angle at the middle of the drawing.
func (p projection) way(positionAngle sky.Angle) draw.Spot {
	turned := positionAngle - p.view.CameraAngle()
	right := -turned.Sin()
	if p.view.Mirrored {
		right = -right
	}
	return draw.Spot{Right: right, Up: turned.Cos()}
}

func (p projection) outline(chip framing.Chip, role theme.Role, dashed bool) draw.FieldLine {
	line := draw.FieldLine{Closed: true, Dashed: dashed, Role: role}
	for _, corner := range chip.Corners() {
		line.Spots = append(line.Spots, p.spot(corner))
	}
	return line
}

// upTick is a short stroke outwards from the middle of the chip's upper edge.
func (p projection) upTick(chip framing.Chip) draw.FieldLine {
	edge := float64(chip.Height) / 2
	return draw.FieldLine{Role: theme.Answer, Spots: []draw.Spot{
		p.spot(chip.Sky(framing.Pixel{Y: edge})), p.spot(chip.Sky(framing.Pixel{Y: edge * 1.15})),
	}}
}

// stars returns the brightest stars of the drawing and the magnitudes at which their shapes change.
func (p projection) stars(centre sky.J2000, radius sky.Angle) (stars []draw.FieldStar, steps [3]float64) {
	const faintest = 20 // all that there are
	near := deep.Near(centre, radius, faintest)
	near = near[:min(len(near), mostStars)]
	last := 11.0
	for _, s := range near {
		stars = append(stars, draw.FieldStar{Spot: p.spot(s.Place), Magnitude: s.Magnitude})
		last = s.Magnitude
	}
	for i, above := range [3]float64{4.5, 3, 1.5} { // steps of brightness that the eye tells apart
		steps[i] = math.Round(2*(last-above)) / 2
	}
	for _, named := range catalog.Stars(nakedEye) {
		if named.Star.Place.Direction().Separation(centre.Direction()) > radius {
			continue
		}
		label(stars, p.spot(named.Star.Place), named)
	}
	return stars, steps
}

// nakedEye is the magnitude to which stars have names.
const nakedEye = 6.5

// label names the star of the drawing that stands where a named one does.
func label(stars []draw.FieldStar, at draw.Spot, named catalog.Object) {
	const within = 0.01 // of half the drawing: less than a dot
	name := named.Bayer()
	if proper := named.Name(); proper != named.ID {
		name = proper
	}
	for i, s := range stars {
		if math.Hypot(s.Right-at.Right, s.Up-at.Up) < within {
			stars[i].Label = name
			return
		}
	}
}
