package deep

import (
	"math"

	"duskhand/sky"
)

// The sky is cut into HEALPix cells (Górski et al. 2005, ApJ 622, 759): diamonds of equal area that stand in
// rings of equal declination, numbered ring by ring from the north pole. They are squares in the plane of
// Calabretta & Roukema 2007, MNRAS 381, 865, whose axes are t, right ascension in units of 45°, and y,
// from 2 at the north pole to −2 at the south pole; |y| > 1 are the polar caps, each in four gores.

// cell is one of them.
type cell struct {
	number int
	t, y   float64 // of its middle
}

// ring is one row of cells.
type ring struct {
	start, count int     // the number of its first cell, and how many it has
	fromNorth    int     // 1 to lastRing
	shift        float64 // right ascension of its first cell, in widths of a cell
}

const lastRing = 4*cellsAcross - 1

// ringAt returns ring i from the north, 1 to lastRing.
func ringAt(i int) ring {
	const n = cellsAcross
	switch {
	case i < n:
		return ring{start: 2 * i * (i - 1), count: 4 * i, fromNorth: i, shift: 0.5}
	case i <= 3*n:
		shift := 0.5 * float64((i+n+1)&1)
		return ring{start: 2*n*(n-1) + (i-n)*4*n, count: 4 * n, fromNorth: i, shift: shift}
	default:
		south := 4*n - i
		return ring{start: cellCount - 2*south*(south+1), count: 4 * south, fromNorth: i, shift: 0.5}
	}
}

func (r ring) y() float64 { return 2 - float64(r.fromNorth)/cellsAcross }

// width returns the step in right ascension from cell to cell.
func (r ring) width() float64 { return 2 * math.Pi / float64(r.count) }

// cell returns the ring's cell j; it wraps round.
func (r ring) cell(j int) cell {
	j = ((j % r.count) + r.count) % r.count
	perGore := r.count / 4
	t := 2 * (float64(j) + r.shift) / cellsAcross
	if perGore < cellsAcross {
		gore, inGore := j/perGore, j%perGore
		t = float64(2*gore+1) + float64(2*inGore+1-perGore)/cellsAcross
	}
	return cell{number: r.start + j, t: t, y: r.y()}
}

// point returns the place of a point of the cell: u and v run from 0 at its southern corner to 1, u
// towards the north-east and v towards the north-west.
func (c cell) point(u, v float64) sky.J2000 {
	return unproject(c.t+(u-v)/cellsAcross, c.y+(u+v-1)/cellsAcross, 2*math.Floor(c.t/2)+1)
}

// unproject returns the place of a point of the plane, which in the caps is in the gore about t = gore.
func unproject(t, y, gore float64) sky.J2000 {
	dec := sky.Angle(math.Asin(max(-1, min(1, 2*y/3))))
	if sigma := 2 - math.Abs(y); sigma < 1 {
		if sigma < 1e-12 { // the pole, where right ascension means nothing
			return sky.J2000{Dec: sky.Angle(math.Copysign(math.Pi/2, y))}
		}
		t, dec = gore+(t-gore)/sigma, polarDec(sigma, y)
	}
	return sky.J2000{RA: (sky.Angle(t) * 45 * sky.Degree).Wrapped(), Dec: dec}
}

// polarDec returns the declination of sine ±(1 − σ²/3) from half the polar distance, because the arc sine
// loses digits near the pole: sin²(p/2) = σ²/6.
func polarDec(sigma, y float64) sky.Angle {
	return sky.Angle(math.Copysign(math.Pi/2-2*math.Asin(sigma/math.Sqrt(6)), y))
}
