package measure

import (
	"math"

	"duskhand/checklist/subs"
)

// colours is the sky of a colour chip by its colours, and where its scale ends.
type colours struct {
	of   map[byte]*colour
	full float64
}

// colour is what one colour shows, with samples of it.
type colour struct {
	level, noise float64
	values       []float32
	bends        []float32 // differences between a pixel and those of its colour on either side
	seen, topped int
}

const (
	skyStep = 8 // cells from one that is sampled for the sky to the next, both ways
	topStep = 2 // rows of cells from one whose pixels are held against the top of the scale to the next
)

// colours looks through a raw frame twice: for the sky and the largest values, and for how many pixels have them.
func (m *Measurer) colours(image Image, mosaic subs.Mosaic) colours {
	c := colours{of: map[byte]*colour{'R': {}, 'G': {}, 'B': {}}}
	width, height := image.Size()
	t := m.strips[0]
	t.most, t.times = float32(math.Inf(-1)), 0
	row := make([]float32, width)
	for y := range height {
		image.Span(0, y, row)
		t.watchTop(row)
		if y/2%skyStep == 0 {
			c.sample(row, mosaic, y)
		}
	}
	sky := &mesh{}
	for _, one := range c.of {
		level, _, _ := t.median(one.values)
		_, noise, _ := t.median(one.bends)
		one.level, one.noise = level, noise/math.Sqrt(1.5)
		sky.level, sky.noise = append(sky.level, float32(level)), append(sky.noise, float32(one.noise))
	}
	c.full = fullScale(m.strips[:1], image.Top(), sky)
	for y := 0; y < height; y++ {
		if y/2%topStep == 0 {
			image.Span(0, y, row)
			c.count(row, mosaic, y)
		}
	}
	return c
}

// sample takes one cell in eight of a row.
func (c colours) sample(row []float32, mosaic subs.Mosaic, y int) {
	for x := 2 * skyStep; x+3 < len(row); x += 2 * skyStep {
		for _, at := range [2]int{x, x + 1} {
			one := c.of[mosaic.At(at, y)]
			if v := row[at]; usable(v) {
				one.values = append(one.values, v)
			}
			if v := row[at] - (row[at-2]+row[at+2])/2; usable(v) {
				one.bends = append(one.bends, v)
			}
		}
	}
}

// count counts the pixels of a row at the top of the scale.
func (c colours) count(row []float32, mosaic subs.Mosaic, y int) {
	full := float32(c.full)
	for first := range 2 {
		one := c.of[mosaic.At(first, y)]
		for x := first; x < len(row); x += 2 {
			if one.seen++; row[x] >= full {
				one.topped++
			}
		}
	}
}

// all returns R, G and B.
func (c colours) all() (all []subs.Colour) {
	for _, name := range "RGB" {
		one := c.of[byte(name)]
		all = append(all, subs.Colour{Name: string(name), Background: one.level, Noise: one.noise, Saturated: float64(one.topped) / float64(max(1, one.seen))})
	}
	return all
}
