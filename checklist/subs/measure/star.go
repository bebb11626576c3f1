package measure

import (
	"math"

	"duskhand/checklist/subs"
	"duskhand/sky"
)

const (
	leastFlux  = 3  // times its noise that a star's flux is
	smallWidth = 4  // pixels, at half height, of a star that is not known for a large one
	smallest   = 10 // pixels of radius, to which a star is tried to be held that seems larger
)

// candidate is a star with what the choice among all needs.
type candidate struct {
	subs.Star
	shape  ellipticity
	spread float64    // one σ of the shape
	edge   bool       // part of it lies outside the frame
	small  *candidate // what it is when held small; nil where that is no other
}

// star measures one peak of the patch; ok is false when it is none.
//
// On bright nebula a window finds ever more light as it grows. Whether the star is large or the light is
// not its own shows when the frame's other stars are known, so both are returned.
func (p *patch) star(n int32) (c candidate, ok bool) {
	c, radius, ok := p.within(n, maxRadius)
	if radius < 1.2*smallest {
		return c, ok
	}
	small, _, fits := p.within(n, smallest)
	if !fits {
		return c, ok
	}
	if !ok {
		return small, true
	}
	c.small = &small
	return c, true
}

// within measures a peak in a window no larger than limit, and returns the window's radius.
func (p *patch) within(n int32, limit float64) (c candidate, radius float64, ok bool) {
	peak := &p.peaks[n]
	noise := p.noiseAt(peak.at)
	w := &window{patch: p, own: n + 1, x: float64(peak.at % side), y: float64(peak.at / side), limit: limit}
	width := p.width(peak)
	if !w.centre(max(width/math.Sqrt(diameterSquared), 0.7)) {
		return candidate{}, 0, false
	}
	radius, flux, size, ok := w.grow(width, float64(peak.height), noise)
	c.Flux, c.HFD, c.Noise = flux, size, noise*math.Sqrt(math.Pi)*radius
	stands := float64(peak.height)-w.base > threshold*float64(peak.noise) && !w.inGlow(peak)
	if !ok || flux < leastFlux*c.Noise || !stands || !w.centre(size/math.Sqrt(diameterSquared)) {
		return candidate{}, radius, false
	}
	if w.label[int(math.Round(w.y))*side+int(math.Round(w.x))] == nothing { // beside the frame
		return candidate{}, radius, false
	}
	c.X, c.Y = w.x-margin+float64(p.at.x), w.y-margin+float64(p.at.y)
	c.Peak, c.Saturated, c.edge = w.top(size)
	c.elongate(w.roundness(size, noise))
	return c, radius, true
}

// width returns a first guess of how wide a star is: as the pixels above half its height cover, the
// filter's variance of one taken off. On a lump of nebula these may be the whole lump, and a window that
// starts small finds its way up, so only a saturated star, which is known for one, starts large.
func (p *patch) width(peak *peak) float64 {
	width := math.Sqrt(max(4*float64(peak.half)/math.Pi-diameterSquared, 1.5))
	if float64(p.value[peak.at]+p.levelAt(peak.at)) >= p.full {
		return width
	}
	return min(width, smallWidth)
}

// elongate sets what follows from the ellipticity and its noise.
func (c *candidate) elongate(e ellipticity, variance float64) {
	c.shape, c.spread = e, math.Sqrt(variance)
	c.Elongation = elongation(e.size(variance))
	c.Direction = e.direction()
}

// direction returns the direction of the long axis, [0°, 180°).
func (e ellipticity) direction() sky.Angle {
	twice := sky.Angle(math.Atan2(e.diagonal, e.along)).Wrapped()
	return twice / 2
}

// top returns the brightest pixel within a half-flux diameter of the centre, whether one there is saturated, and
// whether one is missing.
func (w *window) top(size float64) (most float64, saturated, edge bool) {
	left, right := reach(w.x, size)
	upper, lower := reach(w.y, size)
	for y := upper; y <= lower; y++ {
		for x := left; x <= right; x++ {
			v := float64(w.value[y*side+x])
			switch label := w.label[y*side+x]; {
			case label == nothing:
				edge = true
			case label == w.own && v > most:
				most = v
			}
		}
	}
	level := w.levelAt(int32(int(w.y)*side + int(w.x)))
	return most, most+float64(level) >= w.full, edge
}

// roundness returns the ellipticity of the second moments and the variance that the sky's noise gives it.
// The weight is half as wide again as the star, and its effect is taken off; so is the pixel's.
func (w *window) roundness(size, noise float64) (e ellipticity, variance float64) {
	sigma := 1.5 * size / math.Sqrt(diameterSquared)
	var m moments
	var sum, plus, cross float64
	w.weighted(sigma, min(3*sigma, maxRadius), func(dx, dy, v, weight float64) {
		sum += weight * v
		m.xx += weight * v * dx * dx
		m.yy += weight * v * dy * dy
		m.xy += weight * v * dx * dy
		plus += weight * weight * (dx*dx - dy*dy) * (dx*dx - dy*dy)
		cross += weight * weight * 4 * dx * dx * dy * dy
	})
	if total := m.xx + m.yy; sum <= 0 || total <= 0 {
		return ellipticity{}, 0
	} else {
		variance = noise * noise * (plus + cross) / (total * total)
	}
	m = moments{m.xx / sum, m.yy / sum, m.xy / sum}
	before, ok := m.narrowed(sigma * sigma)
	if !ok {
		return m.ellipticity(), variance
	}
	// Taking the weight off lengthens the ellipticity, and its noise with it.
	longer := (before.xx + before.yy) / (m.xx + m.yy)
	const pixel = 1.0 / 12
	if _, short := before.axes(); short > 2*pixel {
		total := before.xx + before.yy
		longer *= total / (total - 2*pixel)
		before.xx, before.yy = before.xx-pixel, before.yy-pixel
	}
	return before.ellipticity(), variance * longer * longer
}
