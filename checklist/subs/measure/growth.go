package measure

import "math"

const (
	binsPerPixel = 10
	apertures    = 3    // half-flux diameters in the radius within which a star is measured
	minRadius    = 4.0  // pixels
	maxRadius    = 45.0 // pixels; with its ring of sky it about fills the margin
	// diameterSquared is the square of a Gaussian's half-flux diameter per variance: (2√(2 ln 2))². In two
	// dimensions half the flux lies within σ√(2 ln 2), so the diameter is also the width at half height.
	diameterSquared = 8 * math.Ln2
)

// grow finds the radius that the star's size asks for, from its width and height on, and returns it with
// the flux within and the half-flux diameter. ok is false when there is no flux.
func (w *window) grow(width, height, noise float64) (radius, flux, size float64, ok bool) {
	const rounds, near = 4, 0.15
	radius = w.clamped(2.5 * width)
	w.setBase(radius, height*width*width, noise)
	flux, size, ok = w.growthOf(radius, width, 1)
	for range rounds {
		wanted := w.clamped(apertures * size)
		if !ok || math.Abs(wanted-radius) < near*radius {
			break
		}
		radius = min(wanted, 2*radius)
		w.setBase(radius, flux, noise)
		flux, size, ok = w.growthOf(radius, size, 1)
	}
	if !ok {
		return radius, 0, 0, false
	}
	radius = w.clamped(apertures * size)
	w.setBase(radius, flux, noise)
	flux, size, ok = w.growthOf(radius, size, pointsFor(size))
	return radius, flux, size, ok
}

func (w *window) clamped(radius float64) float64 { return min(max(radius, minRadius), w.limit) }

// growthOf returns the flux within radius and the diameter that holds half of it, of the light as it fell
// on the chip. ok is false when there is no flux.
//
// The flux of a pixel near the half is spread over it in points n × n. Pixel and spreading widen the star;
// both are taken off again as variances of 1/12 of a pixel squared each, the second less what n points
// lack of a square. Exact for Gaussians; for undersampled Moffat profiles 2 % remain.
func (w *window) growthOf(radius, guess float64, n int) (flux, diameter float64, ok bool) {
	bins := int(radius*binsPerPixel) + 2*binsPerPixel
	if cap(w.growth) < bins {
		w.growth = make([]float64, bins)
	}
	curve := w.growth[:bins]
	clear(curve)
	near := 0.6*guess + 2 // well outside half the diameter, even where the guess is poor
	w.each(radius, func(dx, dy, v float64) {
		flux += v
		if r := math.Sqrt(dx*dx + dy*dy); n == 1 || r > near {
			curve[int(r*binsPerPixel)] += v
			return
		}
		spread(curve, dx, dy, v, n)
	})
	if flux <= 0 {
		return 0, 0, false
	}
	points := float64(n * n)
	widened := diameterSquared * (1 + 1 - 1/points) / 12
	diameter = 2 * halfRadius(curve, flux)
	return flux, math.Sqrt(max(diameter*diameter-widened, 0.25)), true
}

// pointsFor returns how many points along a pixel's side a star of about that diameter needs.
func pointsFor(diameter float64) int {
	switch {
	case diameter < 6:
		return 5
	case diameter < 12:
		return 3
	}
	return 1
}

func spread(curve []float64, dx, dy, v float64, n int) {
	part := v / float64(n*n)
	for i := range n {
		y := dy + (float64(i)+0.5)/float64(n) - 0.5
		for j := range n {
			x := dx + (float64(j)+0.5)/float64(n) - 0.5
			curve[int(math.Sqrt(x*x+y*y)*binsPerPixel)] += part
		}
	}
}

// halfRadius returns where the curve first holds half the flux, pixels.
func halfRadius(curve []float64, flux float64) float64 {
	sum := 0.0
	for i, v := range curve {
		if sum+v >= flux/2 {
			part := (flux/2 - sum) / v
			return (float64(i) + part) / binsPerPixel
		}
		sum += v
	}
	return float64(len(curve)) / binsPerPixel
}
