package simulate

import "math"

// spot is what the seeing makes of a point.
type spot struct {
	fwhm, beta float64
	reach      int // half the width of the square that is drawn, pixels
}

func (s Scene) spot() spot {
	reach := 2.5 // of a Gaussian 3e-8 of the light is outside 2.5 FWHM
	if s.MoffatBeta > 0 {
		reach = 6
	}
	return spot{s.FWHM, s.MoffatBeta, max(3, int(math.Ceil(reach*s.FWHM)))}
}

// add puts electrons around a place; what falls beside the chip is lost.
func (s spot) add(light canvas, at filePlace, electrons float64) {
	left, low := int(math.Round(at.x))-s.reach, int(math.Round(at.y))-s.reach
	right, high := left+2*s.reach, low+2*s.reach
	if right < 0 || high < 0 || left >= light.width || low >= light.height {
		return
	}
	var shares, rows []float64
	if s.beta <= 0 {
		shares, rows = s.gaussian(at.x, left), s.gaussian(at.y, low)
	}
	for y := max(0, low); y <= min(high, light.height-1); y++ {
		row := light.at[y*light.width:]
		for x := max(0, left); x <= min(right, light.width-1); x++ {
			if s.beta <= 0 {
				row[x] += float32(electrons * shares[x-left] * rows[y-low])
			} else {
				row[x] += float32(electrons * s.moffat(float64(x)-at.x, float64(y)-at.y))
			}
		}
	}
}

// gaussian returns the shares of the light in the columns (or rows) from first on, each integrated over its
// pixel.
func (s spot) gaussian(at float64, first int) []float64 {
	k := 2 * math.Sqrt(math.Ln2) / s.fwhm // 1/(σ√2)
	shares := make([]float64, 2*s.reach+1)
	before := math.Erf(k * (float64(first) - 0.5 - at))
	for i := range shares {
		after := math.Erf(k * (float64(first+i) + 0.5 - at))
		shares[i], before = (after-before)/2, after
	}
	return shares
}

// moffat returns the share of the light in a pixel at dx, dy, by its value in the middle.
// Source: Moffat 1969, A&A 3, 455.
func (s spot) moffat(dx, dy float64) float64 {
	alpha := s.fwhm / (2 * math.Sqrt(math.Pow(2, 1/s.beta)-1))
	r2 := (dx*dx + dy*dy) / (alpha * alpha)
	return (s.beta - 1) / (math.Pi * alpha * alpha) * math.Pow(1+r2, -s.beta)
}
