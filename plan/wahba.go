package plan

import (
	"math"

	"duskhand/sky"
)

// triad is a 3 × 3 matrix by its columns.
type triad [3]sky.Direction

func identity() triad { return triad{{X: 1}, {Y: 1}, {Z: 1}} }

// apply returns the matrix times d.
func (a triad) apply(d sky.Direction) sky.Direction {
	return sky.Direction{}.Plus(d.X, a[0]).Plus(d.Y, a[1]).Plus(d.Z, a[2])
}

// plusOuter returns the matrix + k·u wᵀ.
func (a triad) plusOuter(k float64, u, w sky.Direction) triad {
	return triad{a[0].Plus(k*w.X, u), a[1].Plus(k*w.Y, u), a[2].Plus(k*w.Z, u)}
}

// turned returns the matrix with its columns p and q turned into each other by the angle of sine s and
// cosine c.
func (a triad) turned(p, q int, s, c float64) triad {
	a[p], a[q] = sky.Direction{}.Plus(c, a[p]).Plus(-s, a[q]), sky.Direction{}.Plus(s, a[p]).Plus(c, a[q])
	return a
}

// jacobiSweeps bounds the sweeps; a 3 × 3 matrix needs four or five.
const jacobiSweeps = 30

// singular returns the singular vectors of the matrix to the left and to the right, by falling singular
// value. Only the first two of each are given: the third is their cross product, up to a sign.
//
// Source: one-sided Jacobi rotations, Hestenes 1958, J. SIAM 6, 51. They want no care with rank, and two
// sights make a matrix of rank two.
func (a triad) singular() (left, right [2]sky.Direction) {
	v := identity()
	small := 1e-17 * (a[0].Dot(a[0]) + a[1].Dot(a[1]) + a[2].Dot(a[2]))
	for range jacobiSweeps {
		done := true
		for _, pq := range [3][2]int{{0, 1}, {0, 2}, {1, 2}} {
			p, q := pq[0], pq[1]
			gamma := a[p].Dot(a[q])
			if math.Abs(gamma) <= small {
				continue
			}
			done = false
			zeta := (a[q].Dot(a[q]) - a[p].Dot(a[p])) / (2 * gamma)
			t := math.Copysign(1, zeta) / (math.Abs(zeta) + math.Hypot(1, zeta)) // tan of the smaller angle
			c := 1 / math.Hypot(1, t)
			a, v = a.turned(p, q, c*t, c), v.turned(p, q, c*t, c)
		}
		if done {
			break
		}
	}
	first, second := a.twoLongest()
	return [2]sky.Direction{a[first].Unit(), a[second].Unit()}, [2]sky.Direction{v[first], v[second]}
}

// twoLongest returns the indices of the two longest columns, the longest first.
func (a triad) twoLongest() (first, second int) {
	for i := range a {
		if a[i].Length() > a[first].Length() {
			first = i
		}
	}
	second = (first + 1) % 3
	if last := (first + 2) % 3; a[last].Length() > a[second].Length() {
		second = last
	}
	return first, second
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
