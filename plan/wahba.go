package plan

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"duskhand/sky"
)

// triad is a 3 × 3 matrix by its columns.
type triad [3]sky.Direction

// apply returns the matrix times d.
func (a triad) apply(d sky.Direction) sky.Direction {
	return sky.Direction{}.Plus(d.X, a[0]).Plus(d.Y, a[1]).Plus(d.Z, a[2])
}

// plusOuter returns the matrix + k·u wᵀ.
func (a triad) plusOuter(k float64, u, w sky.Direction) triad {
	return triad{a[0].Plus(k*w.X, u), a[1].Plus(k*w.Y, u), a[2].Plus(k*w.Z, u)}
}

// singular returns the singular vectors of the matrix to the left and to the right, by falling singular
// value. Only the first two of each are given: two sights make a matrix of rank two, and the third is the
// cross product of the others up to a sign.
func (a triad) singular() (left, right [2]sky.Direction) {
	rows := mat.NewDense(3, 3, []float64{a[0].X, a[1].X, a[2].X, a[0].Y, a[1].Y, a[2].Y, a[0].Z, a[1].Z, a[2].Z})
	var svd mat.SVD
	var u, v mat.Dense
	svd.Factorize(rows, mat.SVDFull) // it converges for every finite matrix
	svd.UTo(&u)
	svd.VTo(&v)
	column := func(m *mat.Dense, j int) sky.Direction {
		return sky.Direction{X: m.At(0, j), Y: m.At(1, j), Z: m.At(2, j)}
	}
	return [2]sky.Direction{column(&u, 0), column(&u, 1)}, [2]sky.Direction{column(&v, 0), column(&v, 1)}
}

// attitude returns the rotation that carries the directions in the mount's frame best onto those over the
// site: the one that makes Σ weight·|over − rotation·mount|² least (Wahba's problem).
//
// The two sets hold at least two directions each that are neither the same nor opposite.
// Source: Markley 1988, J. Astronautical Sciences 36, 245, eq. 14 to 17: U diag(1, 1, det U det V) Vᵀ.
// Taking each third singular vector as the cross product of the first two puts the determinants in.
func attitude(over, mount []sky.Direction, weights []float64) triad {
	var b triad
	for i := range over {
		b = b.plusOuter(weights[i], over[i], mount[i])
	}
	u, v := b.singular()
	third, otherThird := u[0].Cross(u[1]), v[0].Cross(v[1])
	return triad{}.plusOuter(1, u[0], v[0]).plusOuter(1, u[1], v[1]).plusOuter(1, third, otherThird)
}

// tiltedFrame returns the smallest rotation that carries the zenith to axis: its columns are where the
// horizon frame's east, north and up go. There is no such one to the nadir: it is held just beside.
func tiltedFrame(axis sky.Direction) triad {
	k := 1 / math.Max(1+axis.Z, 1e-9)
	return triad{
		{X: 1 - k*axis.X*axis.X, Y: -k * axis.X * axis.Y, Z: -axis.X},
		{X: -k * axis.X * axis.Y, Y: 1 - k*axis.Y*axis.Y, Z: -axis.Y},
		axis,
	}
}
