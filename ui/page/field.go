package page

import (
	"fmt"
	"math"

	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// field draws the sky about the target with the chip in it, from the values that the screen's drawing takes.
func (s *svg) field(n Night, number int, at point) {
	const width = 2 // halves of the height: a square
	v := n.Told.View.Field(n.Told.Frame, width)
	place := func(spot draw.Spot) point {
		return point{at.x + fieldSize/2*(1+spot.Right), at.y + fieldSize/2*(1-spot.Up)}
	}
	labels := labels{at: at}
	for _, star := range v.Stars {
		labels.keepOff(place(star.Spot), starRadius(star.Magnitude, v.Steps))
	}
	s.within(fmt.Sprintf("field%d", number), at, fieldSize, fieldSize, func() {
		for _, line := range v.Lines {
			var points []point
			for _, spot := range line.Spots {
				points = append(points, place(spot))
			}
			s.path(points, line.Closed, 1.4, line.Role, line.Dashed)
		}
		for _, star := range v.Stars {
			s.dot(place(star.Spot), starRadius(star.Magnitude, v.Steps), theme.Text)
		}
		for _, star := range v.Stars {
			if star.Label != "" {
				s.label(&labels, place(star.Spot), starRadius(star.Magnitude, v.Steps), theme.Text, star.Label)
			}
		}
		for _, name := range v.Names {
			s.label(&labels, place(name.Spot), 0, name.Role, name.Text)
		}
	})
	s.scale(v, at)
	s.compass(v, at)
}

// starRadius grows by the same factor for each magnitude, from the faintest drawn on.
func starRadius(magnitude float64, steps [3]float64) float64 {
	const smallest, perMagnitude = 1.0, 1.27
	faintest := steps[2] + 1.5
	return math.Min(smallest*math.Pow(perMagnitude, math.Max(0, faintest-magnitude)), 7)
}

func (s *svg) scale(v draw.FieldValues, at point) {
	y := at.y + fieldSize - 12
	length := v.ScaleSize * fieldSize / 2
	s.line(point{at.x + 10, y}, point{at.x + 10 + length, y}, 1.5, theme.Faint, false)
	s.text(point{at.x + 16 + length, y + 4}, 12, theme.Faint, "start", v.ScaleLabel)
}

func (s *svg) compass(v draw.FieldValues, at point) {
	centre := point{at.x + fieldSize - 40, at.y + 50}
	for _, arm := range []struct {
		way    draw.Spot
		letter string
	}{{v.North, "N"}, {v.East, "E"}} {
		length := math.Hypot(arm.way.Right, arm.way.Up)
		if length == 0 {
			continue
		}
		dx, dy := arm.way.Right/length, -arm.way.Up/length
		s.line(centre, point{centre.x + 24*dx, centre.y + 24*dy}, 1.5, theme.Line, false)
		s.text(point{centre.x + 34*dx, centre.y + 34*dy + 4}, 13, theme.Text, "middle", arm.letter)
	}
}
