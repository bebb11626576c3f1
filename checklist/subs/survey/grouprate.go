package survey

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"duskhand/checklist/subs/turning"
	"duskhand/sky"
)

// take fills in what the angles of the group's lights say since they last broke: the straight line through them,
// by least squares, each weighted by its error. The line's error is the stated one, or the larger one that the
// scatter about it shows.
func (g *Group) take(turned []turning.Turned) {
	first, last := turned[0], turned[len(turned)-1]
	g.Compared, g.From, g.Since, g.To = len(turned), first.At, first.At, last.At
	if len(turned) < 2 {
		return
	}
	turned = turned[lastBreak(withErrors(turned)):]
	first = turned[0]
	g.Since = first.At
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

// leastAngleError stands for the error of the first light, which turned by nothing from itself. Our choice.
const leastAngleError = 0.002 * sky.Degree

// withErrors returns angles none of which is known exactly.
func withErrors(turned []turning.Turned) []turning.Turned {
	all := slices.Clone(turned)
	for i := range all {
		all[i].Error = max(all[i].Error, leastAngleError)
	}
	return all
}
