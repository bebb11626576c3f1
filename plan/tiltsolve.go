package plan

import (
	"math"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// tiltState is what is sought: the parts of the tilt vector and m₀, the derotator's angle where χ is 0.
// Radians.
type tiltState struct{ east, north, zero float64 }

func (s tiltState) plus(k float64, d sky.Direction) tiltState {
	return tiltState{s.east + k*d.X, s.north + k*d.Y, s.zero + k*d.Z}
}

func (s tiltState) direction() sky.Direction {
	return sky.MountAxis(sky.Angle(math.Hypot(s.east, s.north)), sky.Angle(math.Atan2(s.east, s.north)))
}

// fieldAngle returns χ at a reading for the axis of the state. Within 1″ of the axis there is none, and
// 0 will do: the halving of steps leads away from there.
func (p tiltReadings) fieldAngle(i int, s tiltState) sky.Angle {
	chi, _ := sky.FieldAngle(p.pole, p.readings[i].target, s.direction())
	return chi
}

// residual returns reading minus fit. Whole turns drop out of it, so that χ needs no unwrapping.
func (p tiltReadings) residual(i int, s tiltState) sky.Angle {
	return (p.readings[i].Angle - sky.Angle(s.zero) - p.sense*p.fieldAngle(i, s)).Signed()
}

// cost returns the sum of squares, of readings and of what was known before, each in its error.
func (p tiltReadings) cost(s tiltState) float64 {
	e, n := (s.east-p.prior.east)/p.spread, (s.north-p.prior.north)/p.spread
	sum := e*e + n*n
	for i := range p.readings {
		r := float64(p.residual(i, s)) / p.sigma
		sum += r * r
	}
	return sum
}

// tiltStep is the step of the numerical derivatives: small against the distances from the axis, large
// against rounding.
const tiltStep = 2 * sky.Arcsecond

// normal returns the normal equations at a state: the information matrix and the descent.
func (p tiltReadings) normal(s tiltState) (information triad, descent sky.Direction) {
	w := 1 / (p.spread * p.spread)
	information[0].X, information[1].Y = w, w
	descent.X, descent.Y = w*(p.prior.east-s.east), w*(p.prior.north-s.north)
	h := float64(tiltStep)
	slope := func(i int, up, down tiltState) float64 {
		return float64(p.sense*(p.fieldAngle(i, up)-p.fieldAngle(i, down)).Signed()) / (2 * h)
	}
	w = 1 / (p.sigma * p.sigma)
	for i := range p.readings {
		j := sky.Direction{
			X: slope(i, tiltState{s.east + h, s.north, 0}, tiltState{s.east - h, s.north, 0}),
			Y: slope(i, tiltState{s.east, s.north + h, 0}, tiltState{s.east, s.north - h, 0}),
			Z: 1,
		}
		information = information.plusOuter(w, j, j)
		descent = descent.Plus(w*float64(p.residual(i, s)), j)
	}
	return information, descent
}

// solution is a least-squares state with its covariance.
type solution struct {
	at         tiltState
	cost       float64
	covariance triad // rad²
}

// solve returns the best state found from the prior's centre and from points around it: near the axis
// the sum of squares has more than one hollow.
func (p tiltReadings) solve() solution {
	best := p.descend(p.prior)
	const starts = 6
	for i := range starts {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / starts)
		if other := p.descend(p.prior.plus(1.5*p.spread, sky.Direction{X: sin, Y: cos})); other.cost < best.cost {
			best = other
		}
	}
	return best
}

// descend follows Gauss-Newton steps while they lead down.
func (p tiltReadings) descend(s tiltState) solution {
	// m₀ from the first reading alone is near enough to keep every residual within half a turn.
	s.zero += float64(p.residual(0, s))
	cost := p.cost(s)
	const rounds, settled = 40, 1e-10
	for range rounds {
		information, descent := p.normal(s)
		next, after := p.downhill(s, inverseOf(information).apply(descent), cost)
		if !(after < cost) {
			break
		}
		gained := cost - after
		s, cost = next, after
		if gained < settled {
			break
		}
	}
	information, _ := p.normal(s)
	return solution{at: s, cost: cost, covariance: inverseOf(information)}
}

// downhill returns the state a step further and its cost, the step halved until the cost is no more than
// it was.
func (p tiltReadings) downhill(s tiltState, step sky.Direction, cost float64) (next tiltState, after float64) {
	const halvings = 20
	share := 1.0
	for range halvings {
		next = s.plus(share, step)
		if after = p.cost(next); after <= cost {
			break
		}
		share /= 2
	}
	return next, after
}

// inverseOf returns the inverse of an information matrix, which always has one: the prior and the readings
// each add to its diagonal. Scaled to a unit diagonal first, since its parts differ by many orders.
func inverseOf(m triad) triad {
	d := [3]float64{1 / math.Sqrt(m[0].X), 1 / math.Sqrt(m[1].Y), 1 / math.Sqrt(m[2].Z)}
	scale := func(a triad) triad {
		for i := range a {
			a[i] = sky.Direction{X: d[0] * d[i] * a[i].X, Y: d[1] * d[i] * a[i].Y, Z: d[2] * d[i] * a[i].Z}
		}
		return a
	}
	a := scale(m)
	det := a[0].Dot(a[1].Cross(a[2]))
	var out triad
	for i := range out {
		out[i] = sky.Direction{}.Plus(1/det, a[(i+1)%3].Cross(a[(i+2)%3]))
	}
	return scale(out)
}

// solveHonestly solves, and when the readings fit worse than their stated error says, solves again with
// the error that they show: they then count for less beside what was known before.
func (p tiltReadings) solveHonestly() solution {
	solved := p.solve()
	free := float64(len(p.readings) - 1) // n readings and two priors, less three unknowns
	if worse := solved.cost / free; worse > 1 {
		p.sigma *= math.Sqrt(worse)
		solved = p.solve()
	}
	return solved
}

// axis returns the axis of the solution and the covariance of its tilt vector.
func (s solution) axis() (kit.Axis, Spread) {
	c := s.covariance
	spread := spreadOf(c[0].X, c[1].Y, c[0].Y)
	axis := kit.Axis{Uncertainty: spread.Radius()}
	axis.Tilt, axis.Toward = tiltOf(s.at.direction())
	return axis, spread
}
