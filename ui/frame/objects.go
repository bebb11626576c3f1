package frame

import (
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/theme"
)

// ellipsePlaces is how many pieces an outline is drawn in.
const ellipsePlaces = 48

// objects returns the outlines and names of the target and of what else lies in the drawing.
func (p projection) objects(target kit.Target, radius sky.Angle) (lines []draw.FieldLine, names []draw.FieldName) {
	add := func(o catalog.Object, place sky.J2000, role theme.Role, name string) {
		names = append(names, draw.FieldName{Spot: p.spot(place), Text: name, Role: role})
		e, ok := framing.OutlineOf(o)
		if !ok || e.Major < p.view.PerPixel/30 { // not more than a dot
			return
		}
		line := draw.FieldLine{Closed: true, Role: role}
		for _, at := range e.Places(place, ellipsePlaces) {
			line.Spots = append(line.Spots, p.spot(at))
		}
		lines = append(lines, line)
	}
	add(target.Object, target.Star.Place, theme.Text, target.Name)
	for _, o := range catalog.DeepSky() {
		if o.ID != target.Object.ID && o.Star.Place.Direction().Separation(p.view.Centre().Direction()) < radius {
			add(o, o.Star.Place, theme.Faint, o.ID) // the number alone: it is shorter than a name, and one
		}
	}
	return lines, names
}

// common is what the frames of all runs share, if that is less than a frame.
func (p projection) common(f facts.Frame) []draw.FieldLine {
	last, ok := f.Shared.Last()
	if !ok || last.Common.Share > 0.995 {
		return nil
	}
	first := f.FirstChip()
	line := draw.FieldLine{Closed: true, Dashed: true, Role: theme.Faint}
	for _, corner := range last.Common.Outline {
		right := float64(corner.Right / first.PerPixel)
		if first.Mirrored {
			right = -right
		}
		line.Spots = append(line.Spots, p.spot(first.Sky(framing.Pixel{X: right, Y: float64(corner.Up / first.PerPixel)})))
	}
	return []draw.FieldLine{line}
}

// scaleBar is a round length that takes about a fifth of the drawing's width, and its words.
func scaleBar(half sky.Angle, width float64) (size float64, said string) {
	arcminutes := []float64{1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 1200}
	best := arcminutes[0]
	for _, a := range arcminutes {
		if sky.Angle(a)*sky.Arcminute/half <= sky.Angle(width/5) {
			best = a
		}
	}
	length := sky.Angle(best) * sky.Arcminute
	said = words.Arcminutes(length, 0)
	if best >= 60 {
		said = words.Degrees(length, 0)
	}
	return float64(length / half), said
}
