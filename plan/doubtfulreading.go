package plan

import (
	"math"
	"slices"

	"duskhand/sky"
)

// What makes a reading doubtful: it is so many standard errors from what the others foretell.
const doubtfulBeyond = 4.0

// sound returns the problem without the readings that are probably wrong, and which those are, worst
// first. A reading is dropped when the rest foretells it badly and agrees much better without it.
func (p tiltReadings) sound() (kept tiltReadings, doubtful []int) {
	kept = p
	for range len(p.readings) / 3 {
		worst, found := kept.worst()
		if !found {
			break
		}
		doubtful = append(doubtful, kept.readings[worst].index)
		kept = kept.without(worst)
	}
	return kept, doubtful
}

// worst returns the reading without which the others agree best, if they foretell it more than
// doubtfulBeyond standard errors away.
func (p tiltReadings) worst() (reading int, found bool) {
	costs := make([]float64, len(p.readings))
	var solved []solution
	for i := range p.readings {
		solved = append(solved, p.without(i).solve())
		costs[i] = solved[i].cost
	}
	reading = slices.Index(costs, slices.Min(costs))
	return reading, p.away(reading, solved[reading]) > doubtfulBeyond
}

// away returns how far a reading is from what a solution without it foretells, in standard errors of
// that difference.
func (p tiltReadings) away(i int, others solution) float64 {
	s, h := others.at, float64(tiltStep)
	chi := p.fieldAngle(i, s)
	j := sky.Direction{
		X: float64(p.sense*(p.fieldAngle(i, s.plus(h, sky.Direction{X: 1}))-chi).Signed()) / h,
		Y: float64(p.sense*(p.fieldAngle(i, s.plus(h, sky.Direction{Y: 1}))-chi).Signed()) / h,
		Z: 1,
	}
	foretold := j.Dot(others.covariance.apply(j))
	return math.Abs(float64(p.residual(i, s))) / math.Sqrt(foretold+p.sigma*p.sigma)
}
