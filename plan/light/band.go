package light

import (
	"math"

	"duskhand/plan/kit"
)

// Band is the light that a filter lets through, taken as level between two wavelengths.
type Band struct{ From, To Wavelength }

// Bandwidths of filters whose kit does not say them: common practice.
const (
	usualLine   = 5 * Nanometre
	usualColour = 100 * Nanometre
	usualClear  = 300 * Nanometre
)

// BandOf returns the band of a filter; usual tells that its width is a guess, since the kit is silent.
func BandOf(f kit.Filter) (b Band, usual bool) {
	width, middle := Wavelength(f.BandwidthNM), Wavelength(f.CentreNM)
	if middle == 0 {
		middle = middleOfV
	}
	if usual = width == 0; usual {
		switch {
		case f.Kind == kit.LineFilter:
			width = usualLine
		case middle == middleOfV:
			width = usualClear
		default:
			width = usualColour
		}
	}
	return Band{middle - width/2, middle + width/2}, usual
}

// has tells whether the band lets a line through.
func (b Band) has(λ Wavelength) bool { return λ >= b.From && λ <= b.To }

// point is a wavelength that stands for a stretch of a band, so many Å wide.
type point struct {
	λ        Wavelength
	angstrom float64
}

// points returns the wavelengths over which a band is summed: three to each stretch between the bands of colours,
// where the continuum has its bends, by Gauss and Legendre.
func (b Band) points() []point {
	edges := []Wavelength{b.From}
	for _, c := range colourBands {
		if c.at > b.From && c.at < b.To {
			edges = append(edges, c.at)
		}
	}
	edges = append(edges, b.To)
	outer := Wavelength(math.Sqrt(0.6))
	var all []point
	for i := 1; i < len(edges); i++ {
		middle, half := (edges[i]+edges[i-1])/2, (edges[i]-edges[i-1])/2
		angstrom := 20 * float64(half)
		all = append(all, point{middle - outer*half, angstrom * 5 / 18}, point{middle, angstrom * 8 / 18}, point{middle + outer*half, angstrom * 5 / 18})
	}
	return all
}
