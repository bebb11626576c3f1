package deep

import (
	"iter"
	"math"

	"duskhand/sky"
)

// cellReach is more than the distance from the middle of any cell to its furthest corner, 1.11°.
const cellReach = 1.2 * sky.Degree

// skyCap is the part of the sky within a radius of a centre.
type skyCap struct {
	centre  sky.Direction
	ra, dec float64 // of the centre, rad
	radius  sky.Angle
	chord2  float64 // square of the straight line from the centre to the rim
}

// newCap returns ok = false where there is no circle.
func newCap(centre sky.J2000, radius sky.Angle) (skyCap, bool) {
	direction := centre.Direction()
	if !(radius >= 0) || math.IsNaN(direction.X+direction.Y+direction.Z) {
		return skyCap{}, false
	}
	place := direction.J2000() // in range, whatever was asked
	c := skyCap{centre: direction, ra: float64(place.RA), dec: float64(place.Dec), radius: min(radius, 180*sky.Degree)}
	half := (c.radius / 2).Sin()
	c.chord2 = 4 * half * half
	if radius >= 180*sky.Degree {
		c.chord2 = 5 // all, the point opposite the centre too, whatever the rounding
	}
	return c, true
}

// holds tells whether d is in the cap. The chord keeps its digits where the cosine of a small angle does not.
func (c skyCap) holds(d sky.Direction) bool {
	x := d.Plus(-1, c.centre)
	return x.Dot(x) <= c.chord2
}

// cells yields every cell that the cap touches and a few beside it.
func (c skyCap) cells() iter.Seq[cell] {
	return func(yield func(cell) bool) {
		reach := float64(c.radius + cellReach)
		for i := 1; i <= lastRing; i++ {
			r := ringAt(i)
			dec := float64(unproject(1, r.y(), 1).Dec)
			half, ok := halfWidth(c.dec, dec, reach)
			if !ok {
				continue
			}
			first, count := r.within(c.ra, half)
			for j := range count {
				if !yield(r.cell(first + j)) {
					return
				}
			}
		}
	}
}

// within returns the cells of the ring whose middles are within half of the right ascension ra, both rad.
func (r ring) within(ra, half float64) (first, count int) {
	if half >= math.Pi { // not left to rounding, which could leave out the cell opposite
		return 0, r.count
	}
	first = int(math.Ceil((ra-half)/r.width() - r.shift))
	last := int(math.Floor((ra+half)/r.width() - r.shift))
	return first, max(0, min(last-first+1, r.count))
}

// halfWidth returns how far in right ascension a circle about declination centre reaches at declination
// dec, all rad; ok is false where it does not reach that declination.
func halfWidth(centre, dec, reach float64) (half float64, ok bool) {
	if math.Abs(centre-dec) > reach {
		return 0, false
	}
	sines, cosines := math.Sin(centre)*math.Sin(dec), math.Cos(centre)*math.Cos(dec)
	if reach >= math.Pi || math.Cos(reach)-sines <= -cosines || cosines < 1e-12 {
		return math.Pi, true
	}
	return math.Acos(min(1, (math.Cos(reach)-sines)/cosines)), true
}
