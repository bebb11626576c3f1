package plan

import (
	"math"
	"time"

	"duskhand/sky"
)

// rim is what a course keeps of the axes around the rim of its region: by how much each one's field angle
// differs from that of the axis as known, at the samples of the track.
type rim struct {
	axes    [rimAxes]sky.Direction
	offsets [][rimAxes]float64 // radians, (−π, π]
	shares  []float64          // of the target, in the region: below 1 it passes over some axis
}

func (c *Course) newRim() *rim {
	if c.axes.known {
		return nil
	}
	r := &rim{}
	for k := range r.axes {
		r.axes[k] = c.axes.at(1, 2*math.Pi*float64(k)/rimAxes)
	}
	directions := c.track.Sampled()
	r.offsets, r.shares = make([][rimAxes]float64, len(directions)), make([]float64, len(directions))
	for i, d := range directions {
		r.shares[i], _ = c.axes.passed(d)
		r.offsets[i] = r.at(c.axes.centre, d)
	}
	return r
}

// at returns the offsets of the rim's axes for a target.
func (r *rim) at(centre, target sky.Direction) (offsets [rimAxes]float64) {
	for k, axis := range r.axes {
		offsets[k] = offset(centre, target, axis)
	}
	return offsets
}

// offset returns by how much the field angle of an axis differs from that of the axis as known: the angle between
// the two at the target, (−π, π]. While the target stays outside the region, which is convex, it never comes
// to π, so that χ of any axis is the nominal one, unwrapped, and this.
func offset(centre, target, axis sky.Direction) float64 {
	angle, _ := sky.FieldAngle(centre, target, axis)
	return float64(angle)
}

// turning is by how much the mechanical angle has changed since an instant, over all axes of the region.
//
// The field angle is harmonic in the axis (it is the longitude of the axis about the target, the argument of a
// stereographic coordinate), so is its change, and so the least and the greatest change lie on the rim
// (maximum principle), unless the target passes over the region meanwhile. Own derivation.
type turning struct {
	course  *Course
	from    time.Time
	sense   float64
	chi     float64 // nominal, at from
	target  sky.Direction
	offsets [rimAxes]float64
	share   float64
	sharp   sharp
}

func (c *Course) turningFrom(from time.Time) turning {
	g := turning{course: c, from: from, sense: float64(c.Kit.Derotator.Sense), chi: float64(c.nominal.At(from)), share: math.Inf(1)}
	if c.axes.known {
		return g
	}
	g.target = c.track.At(from)
	g.offsets = c.rim.at(c.axes.centre, g.target)
	g.share, _ = c.axes.passed(g.target)
	g.sharp = c.axes.sharpAt(g.target)
	return g
}

// exactly returns the least and greatest change at t, radians.
func (g *turning) exactly(t time.Time) (low, high float64) {
	c := g.course
	nominal := g.sense * (float64(c.nominal.At(t)) - g.chi)
	if c.axes.known {
		return nominal, nominal
	}
	target, centre := c.track.At(t), c.axes.centre
	change := func(around float64) float64 {
		axis := c.axes.at(1, around)
		return g.sense * (offset(centre, target, axis) - offset(centre, g.target, axis))
	}
	there := c.axes.sharpAt(target)
	high, _ = greatest(change, there, g.sharp)
	low, _ = greatest(func(around float64) float64 { return -change(around) }, there, g.sharp)
	return nominal - low, nominal + high
}

// farOff is how far off, in shares of the region's size, the rim's axes show all there is to see.
const farOff = 2

// roughly returns the same at a sample of the track, to within slack: from the axes of the rim, with a parabola
// through the highest three.
func (g *turning) roughly(sample int) (low, high, slack float64) {
	c := g.course
	nominal := g.sense * (c.chi[sample] - g.chi)
	if c.axes.known {
		return nominal, nominal, 0
	}
	if c.rim.shares[sample] < farOff || g.share < farOff {
		low, high = g.exactly(c.track.Times()[sample])
		return low, high, 0
	}
	low, high = g.between(&c.rim.offsets[sample])
	return nominal + low, nominal + high, 0.001 * (high - low)
}

// between returns the least and the greatest change of offset since from, peaks between the axes included.
func (g *turning) between(offsets *[rimAxes]float64) (low, high float64) {
	var changes [rimAxes]float64
	lowest, highest := 0, 0
	for k := range changes {
		changes[k] = g.sense * (offsets[k] - g.offsets[k])
		if changes[k] < changes[lowest] {
			lowest = k
		}
		if changes[k] > changes[highest] {
			highest = k
		}
	}
	return peakNear(&changes, lowest), peakNear(&changes, highest)
}

// peakNear returns the extremum of the parabola through an extreme value and its neighbours.
func peakNear(values *[rimAxes]float64, k int) float64 {
	before, here, after := values[(k+rimAxes-1)%rimAxes], values[k], values[(k+1)%rimAxes]
	bend := before - 2*here + after
	if bend == 0 {
		return here
	}
	slope := (after - before) / 2
	return here - slope*slope/(2*bend)
}
