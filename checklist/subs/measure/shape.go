package measure

import "math"

// shape sums the moments of weighted points.
type shape struct {
	weight, x, y, xx, yy, xy float64
	light                    float64 // of trails
}

func (s *shape) add(x, y, weight float64) {
	s.weight += weight
	s.x += weight * x
	s.y += weight * y
	s.xx += weight * x * x
	s.yy += weight * y * y
	s.xy += weight * x * y
}

// extent returns length and width of a bar, evenly filled, that has these second moments; at least one
// pixel each.
func (s *shape) extent() (length, width float64) {
	x, y := s.x/s.weight, s.y/s.weight
	long, short := (moments{s.xx/s.weight - x*x, s.yy/s.weight - y*y, s.xy/s.weight - x*y}).axes()
	return math.Sqrt(12*long + 1), math.Sqrt(12*max(short, 0) + 1)
}

// moments are central second moments, pixels squared.
type moments struct{ xx, yy, xy float64 }

// axes returns the moments along the long axis and along the short one.
func (m moments) axes() (long, short float64) {
	mean, half := (m.xx+m.yy)/2, math.Hypot((m.xx-m.yy)/2, m.xy)
	return mean + half, mean - half
}

// narrowed returns the moments that a round Gaussian weight of that variance made into m. Exact for
// Gaussian stars. ok is false where noise has made them larger than the weight allows.
func (m moments) narrowed(variance float64) (before moments, ok bool) {
	det := m.xx*m.yy - m.xy*m.xy
	if det <= 0 {
		return m, false
	}
	xx, yy, xy := m.yy/det-1/variance, m.xx/det-1/variance, -m.xy/det // the inverse, less the weight's
	det = xx*yy - xy*xy
	if det <= 0 || xx <= 0 {
		return m, false
	}
	return moments{yy / det, xx / det, -xy / det}, true
}

// ellipticity is (a² − b²)/(a² + b²) of the axes, along X and along the diagonal: a vector that noise
// averages out of, and which turns twice as fast as the long axis.
type ellipticity struct{ along, diagonal float64 }

func (m moments) ellipticity() ellipticity {
	return ellipticity{(m.xx - m.yy) / (m.xx + m.yy), 2 * m.xy / (m.xx + m.yy)}
}

// size returns the ellipticity's length without what noise of a variance adds to it, in [0, 1).
func (e ellipticity) size(variance float64) float64 {
	return min(math.Sqrt(max(e.along*e.along+e.diagonal*e.diagonal-variance, 0)), 0.999)
}

// elongation returns the long axis over the short one for an ellipticity; for one below nought, 1.
func elongation(size float64) float64 { return math.Sqrt((1 + max(size, 0)) / (1 - max(size, 0))) }
