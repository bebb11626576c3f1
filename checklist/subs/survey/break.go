package survey

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"duskhand/checklist/subs/turning"
)

// Where a group's angles break; choices of ours.
const (
	fewestOfPiece = 3    // lights on either side of a break
	breakGain     = 50.0 // by which χ² falls, in parts of what is left for each light, more than a smooth bend would
)

// lastBreak returns the first of the lights after the last break in a group's angles, 0 where there is none: two
// straight lines tell them far better than one smooth curve does. Between lights on either side the camera slipped,
// or the derotator stopped or began.
func lastBreak(turned []turning.Turned) int {
	from := 0
	for {
		at := breakOf(turned[from:])
		if at == 0 {
			return from
		}
		from += at
	}
}

// breakOf returns the first of the lights after the clearest break, 0 where there is none.
func breakOf(turned []turning.Turned) (at int) {
	n := len(turned)
	if n < 2*fewestOfPiece {
		return 0
	}
	smooth, best := misfit(turned, 2), math.Inf(1)
	sums := newLineSums(turned)
	for i := fewestOfPiece; i <= n-fewestOfPiece; i++ {
		if m := sums.misfit(0, i) + sums.misfit(i, n); m < best {
			at, best = i, m
		}
	}
	free := float64(max(1, n-4))
	if smooth-best < breakGain*max(1, best/free) {
		return 0
	}
	return at
}

// misfit returns the sum of the squares of what a polynomial of a degree leaves, each in its error.
func misfit(turned []turning.Turned, degree int) float64 {
	n := len(turned)
	a, b := mat.NewDense(n, degree+1, nil), mat.NewVecDense(n, nil)
	span := turned[n-1].At.Sub(turned[0].At).Seconds()
	for i, t := range turned {
		w, x := 1/float64(t.Error), t.At.Sub(turned[0].At).Seconds()/span
		for d := range degree + 1 {
			a.Set(i, d, w*math.Pow(x, float64(d)))
		}
		b.SetVec(i, w*float64(t.Camera))
	}
	var fit, left mat.VecDense
	if err := fit.SolveVec(a, b); err != nil {
		return math.Inf(1)
	}
	left.MulVec(a, &fit)
	left.SubVec(b, &left)
	return mat.Dot(&left, &left)
}

// lineSums are the sums that a straight line through any stretch of lights is made of.
type lineSums [][6]float64

func newLineSums(turned []turning.Turned) lineSums {
	sums := make(lineSums, len(turned)+1)
	for i, t := range turned {
		w, x, y := 1/float64(t.Error*t.Error), t.At.Sub(turned[0].At).Hours(), float64(t.Camera)
		for j, v := range [6]float64{w, w * x, w * y, w * x * x, w * x * y, w * y * y} {
			sums[i+1][j] = sums[i][j] + v
		}
	}
	return sums
}

// misfit returns what the straight line through lights from to before to leaves.
func (s lineSums) misfit(from, to int) float64 {
	var d [6]float64
	for j := range d {
		d[j] = s[to][j] - s[from][j]
	}
	xx, xy, yy := d[3]-d[1]*d[1]/d[0], d[4]-d[1]*d[2]/d[0], d[5]-d[2]*d[2]/d[0]
	return max(0, yy-xy*xy/xx)
}
