package survey

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"duskhand/checklist/subs/turning"
	"duskhand/sky"
)

// take fills in what the angles of all lights of the group say: the straight line through them, by least
// squares, each weighted by its error. The line's error is the stated one, or the larger one that the scatter
// about it shows.
func (g *Group) take(turned []turning.Turned) {
	first, last := turned[0], turned[len(turned)-1]
	g.Compared, g.From, g.To = len(turned), first.At, last.At
	if len(turned) < 2 {
		return
	}
	var seconds, angles, weights []float64
	for _, t := range turned {
		seconds = append(seconds, t.At.Sub(first.At).Seconds())
		angles = append(angles, float64(t.Camera))
		weights = append(weights, 1/float64(t.Error*t.Error))
	}
	offset, slope := stat.LinearRegression(seconds, angles, weights, false)
	mean := stat.Mean(seconds, weights)
	var lever, square float64
	for i, x := range seconds {
		off := angles[i] - offset - slope*x
		lever, square = lever+weights[i]*(x-mean)*(x-mean), square+weights[i]*off*off
	}
	worse := 1.0
	if free := len(turned) - 2; free > 0 {
		worse = max(1, math.Sqrt(square/float64(free)))
	}
	g.Rate, g.RateError = sky.Rate(slope), sky.Rate(worse/math.Sqrt(lever))
	if g.Course != nil {
		field := g.Course.FieldAngle(last.At) - g.Course.FieldAngle(first.At)
		g.Predicted = sky.Rate(float64(field) / last.At.Sub(first.At).Seconds())
	}
}
