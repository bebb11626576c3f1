package stage

import "math"

// about returns the sum of squares of lights from to before to about a camera angle that grows by a share of χ from a
// value of its own.
func (r run) about(from, to int, share float64) float64 {
	level, _ := r.level(from, to, share)
	sum := 0.0
	for i := from; i < to; i++ {
		off := r.camera[i] - share*r.chi[i] - level
		sum += r.weight[i] * off * off
	}
	return sum
}

// level returns the mean of what the camera angle is beyond a share of χ, and its weight.
func (r run) level(from, to int, share float64) (level, weight float64) {
	for i := from; i < to; i++ {
		level += r.weight[i] * (r.camera[i] - share*r.chi[i])
		weight += r.weight[i]
	}
	return level / weight, weight
}

// step returns by how much the camera turned: at once for a share of 0, else up to the last light.
func (r run) step(first int, share float64) float64 {
	before, _ := r.level(0, first, 0)
	after, _ := r.level(first, len(r.camera), share)
	return after + share*r.chi[len(r.chi)-1] - before
}

// continues tells that a stage which stands or turns backwards may have begun to between two lights: the camera then
// turned by no more than the field did meanwhile.
func (r run) continues(e explanation, share float64) bool {
	before, _ := r.level(0, e.first, 0)
	after, _ := r.level(e.first, len(r.camera), share)
	begins := after + share*r.chi[e.first-1] - before // 0 if it began at the light before
	whole := share * (r.chi[e.first] - r.chi[e.first-1])
	slack := sigmas * r.errorOf(e)
	// Begun at the light after it would be −whole.
	return begins <= math.Max(0, -whole)+slack && begins >= math.Min(0, -whole)-slack
}

// creeping returns the explanation by a turning at one rate.
func (r run) creeping() explanation {
	n := len(r.camera)
	var w, x, y, xx, xy float64
	for i := range n {
		t := r.hours[i]
		w, x, y = w+r.weight[i], x+r.weight[i]*t, y+r.weight[i]*r.camera[i]
		xx, xy = xx+r.weight[i]*t*t, xy+r.weight[i]*t*r.camera[i]
	}
	slope := (w*xy - x*y) / (w*xx - x*x)
	level := (y - slope*x) / w
	e := explanation{kind: Creeps, first: 1, by: slope * r.hours[n-1]}
	for i := range n {
		off := r.camera[i] - level - slope*r.hours[i]
		e.cost += r.weight[i] * off * off
	}
	if n < fewestCreeping {
		e.cost = math.Inf(1)
	}
	return e
}

// fewestCreeping is how many lights it takes to tell a slow turning from anything else.
const fewestCreeping = 4
