package plan

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// jointSolution is a problem with its best state.
type jointSolution struct {
	joint
	at   []float64
	cost float64
}

// solve returns the best state found from the prior's centre and from points around it: near the axis the sum of
// squares has more than one hollow.
func (p joint) solve() jointSolution {
	best := p.descend(p.prior[0], p.prior[1])
	const starts = 6
	var covariance mat.Dense
	if covariance.Inverse(p.weight) != nil {
		return best
	}
	away := 1.5 * math.Sqrt(math.Max(covariance.At(0, 0), covariance.At(1, 1)))
	for i := range starts {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / starts)
		if other := p.descend(p.prior[0]+away*sin, p.prior[1]+away*cos); other.cost < best.cost {
			best = other
		}
	}
	return best
}

// begin returns a state with a tilt whose zero and stretches are near enough to keep every residual within half a
// turn: the zero from the first stretch that has both a camera angle and a reading.
func (p joint) begin(east, north float64) []float64 {
	x := make([]float64, p.unknowns())
	x[0], x[1], x[2] = east, north, p.prior[2]
	for _, s := range p.stretches {
		if len(s.cameras) == 0 || len(s.readings) == 0 {
			continue
		}
		if s.still {
			x[2] += signed(s.cameras[0].angle - p.foretold(s, s.readings[0].angle, x, s.cameras[0], true))
		} else {
			x[2] += signed(p.sense * (s.readings[0].angle - p.foretold(s, s.cameras[0].angle, x, s.readings[0], false)))
		}
		break
	}
	for k, s := range p.stretches {
		direct, other, camera := s.cameras, s.readings, false
		if s.still {
			direct, other, camera = s.readings, s.cameras, true
		}
		switch {
		case len(direct) > 0:
			x[3+k] = direct[0].angle
		case len(other) > 0:
			x[3+k] = signed(-p.sense * (other[0].angle - p.foretold(s, 0, x, other[0], camera)))
		}
	}
	return x
}

// descend follows Gauss-Newton steps while they lead down.
func (p joint) descend(east, north float64) jointSolution {
	x := p.begin(east, north)
	cost := p.cost(x)
	const rounds, settled = 40, 1e-9
	for range rounds {
		information, descent := p.normal(x)
		var step mat.VecDense
		if step.SolveVec(information, descent) != nil {
			break
		}
		next, after := p.downhill(x, &step, cost)
		if !(after < cost) {
			break
		}
		gained := cost - after
		x, cost = next, after
		if gained < settled {
			break
		}
	}
	return jointSolution{p, x, cost}
}

// downhill returns the state a step further and its cost, the step halved until the cost is no more than it was.
func (p joint) downhill(x []float64, step *mat.VecDense, cost float64) (next []float64, after float64) {
	const halvings = 20
	share := 1.0
	for range halvings {
		next = make([]float64, len(x))
		for i := range x {
			next[i] = x[i] + share*step.AtVec(i)
		}
		if after = p.cost(next); after <= cost {
			break
		}
		share /= 2
	}
	return next, after
}

// cost returns the sum of squares, of the observations and of what was known before, each in its error.
func (p joint) cost(x []float64) float64 {
	d := mat.NewVecDense(3, []float64{x[0] - p.prior[0], x[1] - p.prior[1], p.zeroOff(x)})
	sum := mat.Inner(d, p.weight, d)
	p.each(x, func(_ int, _ observed, o sight, _ bool, residual float64) {
		sum += residual * residual / (o.sigma * o.sigma)
	})
	return sum
}

// zeroOff returns by how much the zero differs from what was known before.
func (p joint) zeroOff(x []float64) float64 { return signed(x[2] - p.prior[2]) }

// normal returns the normal equations at a state: the information matrix and the descent.
func (p joint) normal(x []float64) (*mat.SymDense, *mat.VecDense) {
	n := p.unknowns()
	information, descent := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	off := [3]float64{p.prior[0] - x[0], p.prior[1] - x[1], -p.zeroOff(x)}
	for i := range 3 {
		for j := range 3 {
			descent.SetVec(i, descent.AtVec(i)+p.weight.At(i, j)*off[j])
			if j >= i {
				information.SetSym(i, j, p.weight.At(i, j))
			}
		}
	}
	p.each(x, func(k int, s observed, o sight, camera bool, residual float64) {
		d, w := p.slopes(s, x, o, camera), 1/(o.sigma*o.sigma)
		at := [4]int{0, 1, 2, 3 + k}
		for i := range d {
			descent.SetVec(at[i], descent.AtVec(at[i])+w*d[i]*residual)
			for j := i; j < len(d); j++ {
				information.SetSym(at[i], at[j], information.At(at[i], at[j])+w*d[i]*d[j])
			}
		}
	})
	for k := range p.stretches { // one without an observation says nothing, and has an inverse
		if information.At(3+k, 3+k) == 0 {
			information.SetSym(3+k, 3+k, 1)
		}
	}
	return information, descent
}

// covariance returns the inverse of the information at a state.
func (p joint) covariance(x []float64) (c *mat.SymDense, ok bool) {
	information, _ := p.normal(x)
	var factor mat.Cholesky
	if !factor.Factorize(information) {
		return nil, false
	}
	c = mat.NewSymDense(p.unknowns(), nil)
	if factor.InverseTo(c) != nil {
		return nil, false
	}
	return c, true
}
