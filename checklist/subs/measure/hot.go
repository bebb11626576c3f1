package measure

import "slices"

const (
	hotFrom = 8   // σ of the sky above which a pixel is looked at
	hotMost = 0.7 // of its own height that a hot pixel's eight neighbours reach together
)

// cleanHot puts the surroundings in place of hot pixels and small cosmic rays, before anything is summed.
//
// Light that came through the optics never falls on one pixel alone: of a star with a half-flux diameter
// of 1.5 pixels, centred on a pixel, the neighbours have twice the pixel's own height together.
func (p *patch) cleanHot() {
	for _, at := range p.sharp {
		row, i := int(at)/side, int(at)%side
		if row >= 2 && row < side-2 && i >= 2 && i < side-2 {
			p.cleanOne(int(at), p.value[at])
		}
	}
}

func (p *patch) cleanOne(at int, v float32) {
	neighbours := float32(0)
	for y := -side; y <= side; y += side {
		for x := -1; x <= 1; x++ {
			if p.value[at+y+x] > v {
				return
			}
			neighbours += p.value[at+y+x]
		}
	}
	neighbours -= v
	around := p.ring(at)
	if neighbours-8*around < hotMost*(v-around) {
		p.value[at] = around
	}
}

// ring returns the median of the sixteen pixels two away.
func (p *patch) ring(at int) float32 {
	var ring [16]float32
	n := 0
	for y := -2; y <= 2; y++ {
		for x := -2; x <= 2; x++ {
			if max(y, -y) == 2 || max(x, -x) == 2 {
				ring[n] = p.value[at+y*side+x]
				n++
			}
		}
	}
	slices.Sort(ring[:])
	return (ring[7] + ring[8]) / 2
}
