package turning

import "math"

// against is what the camera's angle is held against: seconds, or the field's own turning.
type against func(first, p point) float64

func byTime(first, p point) float64       { return p.at.Sub(first.at).Seconds() }
func byFieldAngle(first, p point) float64 { return float64(p.chi - first.chi) }

// line returns the slope of the camera's angle by weighted least squares, with its error: the stated one, or the
// larger one that the scatter about the line shows. Of fewer than two points, or all at one place, the slope is
// 0 and its error infinite.
func line(stretch []point, x against) (slope, slopeError float64) {
	var w, wx, wy float64
	for _, p := range stretch {
		k := weight(p)
		w, wx, wy = w+k, wx+k*x(stretch[0], p), wy+k*float64(p.camera)
	}
	meanX, meanY := wx/w, wy/w
	var xx, xy float64
	for _, p := range stretch {
		dx := x(stretch[0], p) - meanX
		xx += weight(p) * dx * dx
		xy += weight(p) * dx * (float64(p.camera) - meanY)
	}
	if len(stretch) < 2 || xx == 0 {
		return 0, math.Inf(1)
	}
	slope = xy / xx
	var square float64
	for _, p := range stretch {
		off := float64(p.camera) - meanY - slope*(x(stretch[0], p)-meanX)
		square += weight(p) * off * off
	}
	worse := 1.0
	if free := len(stretch) - 2; free > 0 {
		worse = math.Max(1, math.Sqrt(square/float64(free)))
	}
	return slope, worse / math.Sqrt(xx)
}

func weight(p point) float64 { return 1 / float64(p.sigma*p.sigma) }
