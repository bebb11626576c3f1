package measure

import (
	"math"
	"sync"

	"duskhand/checklist/subs"
)

// Coloured returns what a raw light of a colour chip shows. Its stars are measured on cells of 2 × 2 pixels, each of
// which has all colours, so that the mosaic is not taken for their shape; the sky is that of each colour.
//
// Frame:  pixels of the chip, as in package subs. Fluxes, diameters and noises are those of its pixels too; a star's
// peak and Background are means of a cell.
// Valid:  frames of 64 × 64 pixels up, and an order of colours that is one.
// Error:  as Frame, for half-flux diameters from five pixels up: a cell is two pixels wide.
func (m *Measurer) Coloured(image Image, mosaic subs.Mosaic) (subs.Measured, error) {
	colours := m.colours(image, mosaic)
	cells := &cells{Image: image, full: colours.full}
	out, err := m.Frame(cells)
	if err != nil {
		return subs.Measured{}, err
	}
	out.Colours = colours.all()
	out.Noise *= 2 // the mean of four has half the noise of one
	out.HFD *= 2
	for i := range out.Ninths {
		out.Ninths[i] *= 2
	}
	for i := range out.Stars {
		s := &out.Stars[i]
		s.X, s.Y, s.HFD = 2*s.X+0.5, 2*s.Y+0.5, 2*s.HFD
		s.Flux, s.Noise = 4*s.Flux, 4*s.Noise
	}
	return out, nil
}

// cells is an image of a colour chip in which each cell of 2 × 2 pixels is one, their mean. One of which a pixel is at
// the top of the scale is there itself: the colours do not fill at one time.
type cells struct {
	Image
	full float64 // from which value on a pixel is saturated, ADU
	rows sync.Pool
}

func (c *cells) Size() (width, height int) {
	width, height = c.Image.Size()
	return width / 2, height / 2
}

func (c *cells) Step() float64 { return c.Image.Step() / 4 }

func (c *cells) Top() float64 { return min(c.full, c.Image.Top()) }

func (c *cells) Span(x, y int, values []float32) {
	n := 2 * len(values)
	row, _ := c.rows.Get().(*[]float32)
	if row == nil {
		row = new([]float32)
	}
	*row = resized(*row, 2*n)
	upper, lower := (*row)[:n], (*row)[n:]
	c.Image.Span(2*x, 2*y, upper)
	c.Image.Span(2*x, 2*y+1, lower)
	full := float32(math.Min(c.full, math.MaxFloat32))
	for i := range values {
		a, b, d, e := upper[2*i], upper[2*i+1], lower[2*i], lower[2*i+1]
		values[i] = (a + b + d + e) / 4
		if max(a, b, d, e) >= full {
			values[i] = full
		}
	}
	c.rows.Put(row)
}
