package subs

import "strings"

// Mosaic is the order of a colour chip's filters: of the first two pixels of the frame's first row, then of the
// second's, as "RGGB". "" is a chip without colours.
type Mosaic string

// Mosaics are the orders that there are: one order and its turns.
func Mosaics() []string { return []string{"RGGB", "BGGR", "GRBG", "GBRG"} }

// MosaicOf reads an order; ok is false for what is none.
func MosaicOf(text string) (m Mosaic, ok bool) {
	text = strings.ToUpper(strings.TrimSpace(text))
	for _, known := range Mosaics() {
		if text == known {
			return Mosaic(known), true
		}
	}
	return "", false
}

// Shifted returns the order that a frame has whose first pixel is so many columns and rows into the chip's.
func (m Mosaic) Shifted(columns, rows int) Mosaic {
	if len(m) != 4 {
		return m
	}
	var turned [4]byte
	for i := range turned {
		turned[i] = m.At(i%2+columns&1, i/2+rows&1)
	}
	return Mosaic(turned[:])
}

// At returns the colour of a pixel: 'R', 'G' or 'B'. It needs an order that is one.
func (m Mosaic) At(x, y int) byte { return m[y&1<<1|x&1] }

// Colour is what one colour of a chip shows of the sky.
type Colour struct {
	Name       string  // R, G or B
	Background float64 // median of the sky, ADU
	Noise      float64 // of one pixel of the sky, ADU, one σ
	Saturated  float64 // share of its pixels that are at the top of the scale
}
