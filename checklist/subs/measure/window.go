package measure

import "math"

// window is the surroundings of one star. Pixels that belong to another star or have no value are
// replaced by those opposite, and by the sky where these are not its own either.
type window struct {
	*patch
	own   int32 // label
	x, y  float64
	limit float64 // of the radius, pixels
	base  float64 // light of the surroundings above the sky, ADU
}

// each calls do with every pixel within radius of the centre: its offset from the centre and its value.
func (w *window) each(radius float64, do func(dx, dy, v float64)) {
	left, right := reach(w.x, radius)
	top, bottom := reach(w.y, radius)
	for y := top; y <= bottom; y++ {
		dy := float64(y) - w.y
		for x := left; x <= right; x++ {
			if dx := float64(x) - w.x; dx*dx+dy*dy <= radius*radius {
				do(dx, dy, w.pixel(x, y))
			}
		}
	}
}

// reach returns the first and the last pixel within radius of a place, inside the patch.
func reach(place, radius float64) (first, last int) {
	return max(int(math.Ceil(place-radius)), 0), min(int(math.Floor(place+radius)), side-1)
}

// weighted calls do with every pixel within three σ of the centre, and with the weight of a Gaussian there. The
// weight is the product of one along the row and one across, which saves most of the exponentials.
func (w *window) weighted(sigma, radius float64, do func(dx, dy, v, weight float64)) {
	left, right := reach(w.x, radius)
	top, bottom := reach(w.y, radius)
	along := w.along[:max(right-left+1, 0)]
	for i := range along {
		dx := float64(left+i) - w.x
		along[i] = gauss(dx, sigma)
	}
	for y := top; y <= bottom; y++ {
		dy := float64(y) - w.y
		across := gauss(dy, sigma)
		for i, weight := range along {
			if dx := float64(left+i) - w.x; dx*dx+dy*dy <= radius*radius {
				do(dx, dy, w.pixel(left+i, y), weight*across)
			}
		}
	}
}

func (w *window) pixel(x, y int) float64 {
	at := y*side + x
	if label := w.label[at]; label == free || label == w.own {
		return float64(w.value[at]) - w.base
	}
	at = int(math.Round(2*w.y)-float64(y))*side + int(math.Round(2*w.x)-float64(x))
	if at < 0 || at >= len(w.label) {
		return 0
	}
	if label := w.label[at]; label == free || label == w.own {
		return float64(w.value[at]) - w.base
	}
	return 0
}

// centre moves the window to the flux-weighted centroid, weighted by a Gaussian of σ pixels that moves
// along, and tells whether it stayed near the peak.
//
// Source: the step is doubled because the weight pulls half way back: Bertin & Arnouts, windowed positions.
func (w *window) centre(sigma float64) bool {
	sigma = min(sigma, maxRadius/3)
	const rounds, enough = 12, 1e-3 // pixel
	x0, y0 := w.x, w.y
	for range rounds {
		var s shape
		w.weighted(sigma, 3*sigma, func(dx, dy, v, weight float64) {
			v *= weight
			s.weight, s.x, s.y = s.weight+v, s.x+v*dx, s.y+v*dy
		})
		if s.weight <= 0 {
			return false
		}
		dx, dy := 2*s.x/s.weight, 2*s.y/s.weight
		w.x, w.y = w.x+dx, w.y+dy
		if math.Hypot(w.x-x0, w.y-y0) > max(2, 2*sigma) {
			return false
		}
		if math.Hypot(dx, dy) < enough {
			break
		}
	}
	return true
}

func gauss(d, sigma float64) float64 { return math.Exp(-d * d / (2 * sigma * sigma)) }

// setBase finds the light of the surroundings outside radius, where it differs from the sky: nebula,
// or the glow of a brighter star. A faint difference is left, being noise; so is one that is a small part
// of the star's flux, being the star's own wings. The filtered pixels are asked, in which the colours of a
// raw colour frame are even.
func (w *window) setBase(radius, flux, noise float64) {
	const wings = 0.05
	w.collect(radius, 1.35*radius+1, w.own)
	w.base = 0
	if len(w.annulus) < fewest {
		return
	}
	base := float64(nth(w.annulus, len(w.annulus)/2))
	scatter := 1.25 * noise / math.Sqrt(float64(len(w.annulus))) // of a median
	if math.Abs(base) > 3*scatter && math.Abs(base)*math.Pi*radius*radius > wings*flux {
		w.base = base
	}
}

// inGlow tells whether a peak hardly stands above the brighter side of what is close around it: where the
// wings of a bright star sink to the threshold, noise alone makes islands.
func (w *window) inGlow(peak *peak) bool {
	const inner, outer, stand = 4, 8, 4 // pixels, and σ of the filtered sky
	w.collect(inner, outer, free)
	if len(w.annulus) < fewest {
		return false
	}
	return peak.height-nth(w.annulus, len(w.annulus)*3/4) < stand*peak.noise
}

// collect gathers the filtered pixels in a ring: those of the sky and of one label.
func (w *window) collect(radius, outer float64, also int32) {
	w.annulus = w.annulus[:0]
	left, right := reach(w.x, outer)
	top, bottom := reach(w.y, outer)
	for y := top; y <= bottom; y++ {
		dy := float64(y) - w.y
		labels, filtered := w.label[y*side:][:side], w.filter[y*side:][:side]
		for x := left; x <= right; x++ {
			dx := float64(x) - w.x
			if r2 := dx*dx + dy*dy; r2 <= radius*radius || r2 >= outer*outer {
				continue
			}
			if label := labels[x]; label == free || label == also {
				w.annulus = append(w.annulus, filtered[x])
			}
		}
	}
}
