package framing

import (
	"cmp"
	"math"
	"slices"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// FieldStar is a star of any list, as a field needs it.
type FieldStar struct {
	Place sky.J2000
	Mag   float64 // V
}

// GuideChip returns the guide camera's chip on the sky while the main chip stands as it does: both turn
// together, so that it swings about the main chip's middle with every change of the camera angle.
//
// A nil offset in the kit counts as none. ok is false when the kit has no guide telescope and camera.
func GuideChip(k kit.Kit, main Chip) (chip Chip, ok bool) {
	sensor, ok := GuideSensor(k)
	if !ok {
		return Chip{}, false
	}
	var offset kit.ChipOffset
	if k.Guide.Offset != nil {
		offset = *k.Guide.Offset
	}
	return main.beside(sensor, offset, k.Guide.Turned), true
}

// edgeShare is how much of the guide chip's width and height is left out along each side: a star nearer to
// the edge is lost at the first dither. Our choice.
const edgeShare = 0.05

// Seen returns the stars no fainter than a magnitude that a chip has clear of its edges, brightest first.
func (c Chip) Seen(stars []FieldStar, faintestMag float64) []FieldStar {
	inner := c.withoutEdges()
	var seen []FieldStar
	for _, star := range stars {
		if star.Mag <= faintestMag && inner.Contains(star.Place) {
			seen = append(seen, star)
		}
	}
	slices.SortStableFunc(seen, func(a, b FieldStar) int { return cmp.Compare(a.Mag, b.Mag) })
	return seen
}

// withoutEdges returns the chip less its edges, about the same middle.
func (c Chip) withoutEdges() Chip {
	c.Width -= int(2 * edgeShare * float64(c.Width))
	c.Height -= int(2 * edgeShare * float64(c.Height))
	return c
}

// GuideDirection is what a guide telescope would see that looks a given way off the main one.
type GuideDirection struct {
	Direction sky.Angle // from the main chip's up, anticlockwise (north through east when up is north), [0°, 360°)
	Stars     int       // that are bright enough
	Brightest float64   // V magnitude of the brightest, if there is any
}

// GuideDirections returns what the guide chip has when its telescope looks off the main one by a distance, for
// so many directions all around, beginning at the main chip's up: where Stars is 0 there is no guide star.
// The kit's own offset plays no part. nil without a guide telescope and camera.
func GuideDirections(k kit.Kit, main Chip, distance sky.Angle, directions int, stars []FieldStar, faintestMag float64) []GuideDirection {
	sensor, ok := GuideSensor(k)
	if !ok || directions < 1 {
		return nil
	}
	near := brightNear(main, sensor, distance, stars, faintestMag)
	found := make([]GuideDirection, directions)
	off := sky.Angle(math.Tan(distance.Radians())) // in the tangent plane
	for i := range found {
		way := sky.Turn * sky.Angle(i) / sky.Angle(directions)
		offset := kit.ChipOffset{Right: off * sky.Angle(-way.Sin()*main.side()), Up: off * sky.Angle(way.Cos())}
		inner := main.beside(sensor, offset, k.Guide.Turned).withoutEdges()
		found[i].Direction = way
		for _, star := range near {
			if !inner.Contains(star.Place) {
				continue
			}
			if found[i].Stars == 0 || star.Mag < found[i].Brightest {
				found[i].Brightest = star.Mag
			}
			found[i].Stars++
		}
	}
	return found
}

// brightNear drops the stars that no direction can bring on the guide chip.
func brightNear(main Chip, sensor Sensor, distance sky.Angle, stars []FieldStar, faintestMag float64) []FieldStar {
	reach := distance + sky.Angle(sensor.CornerPixels())*sensor.PerPixel
	var near []FieldStar
	for _, star := range stars {
		if star.Mag <= faintestMag && star.Place.Direction().Separation(main.forward) <= reach {
			near = append(near, star)
		}
	}
	return near
}

// Arc is a range of directions, From anticlockwise to To; From equals To when it goes all the way round.
type Arc struct{ From, To sky.Angle }

// WithoutStar returns the directions in which there is no guide star, as arcs between the first and the last
// sample that has none, joined across 0°.
func WithoutStar(found []GuideDirection) []Arc {
	n := len(found)
	empty := func(i int) bool { return found[(i+n)%n].Stars == 0 }
	var arcs []Arc
	for i := range n {
		if !empty(i) || empty(i-1) {
			continue
		}
		last := i
		for empty(last + 1) { // ends before the turn is round, for i − 1 is not empty
			last++
		}
		arcs = append(arcs, Arc{found[i].Direction, found[last%n].Direction})
	}
	if arcs == nil && n > 0 && empty(0) {
		return []Arc{{}}
	}
	return arcs
}
