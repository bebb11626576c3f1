package measure

import (
	"math"
	"slices"
)

// sortBright puts the bright pixels in order, the brightest first and equal ones as they lie, by counting digits:
// a crowded tile has tens of thousands, all above nought, whose bits sort as the values do.
func (p *patch) sortBright() {
	n := len(p.bright)
	p.order, p.other = slices.Grow(p.order[:0], n)[:n], slices.Grow(p.other[:0], n)[:n]
	for i, at := range p.bright {
		p.order[i] = uint64(^math.Float32bits(p.filter[at]))<<32 | uint64(uint32(at))
	}
	const digitBits = 11 // three digits make the 32 bits of a value, which stand above the place
	var counts [1 << digitBits]int32
	for shift := 32; shift < 64; shift += digitBits {
		clear(counts[:])
		for _, k := range p.order {
			counts[k>>shift%uint64(len(counts))]++
		}
		place := int32(0)
		for i, n := range counts {
			counts[i] = place
			place += n
		}
		for _, k := range p.order {
			digit := k >> shift % uint64(len(counts))
			p.other[counts[digit]] = k
			counts[digit]++
		}
		p.order, p.other = p.other, p.order
	}
	for i, k := range p.order {
		p.bright[i] = int32(uint32(k))
	}
}
