// Package measure finds the stars of a light and says how large and how round they are.
//
// The sky and its noise are clipped medians in a mesh, so that gradients, moonlight and broad nebulosity
// do not count. Stars are peaks among the connected pixels over a threshold, after a small filter. Each
// is measured in a window around it: flux-weighted centroid, half-flux diameter from the curve of growth,
// elongation from the second moments. What is not shaped like the frame's other stars is left out: hot
// pixels, trails of satellites, lumps of nebula, galaxies.
//
// The frame is worked through in tiles that overlap. Their layout depends on the frame alone, so the
// results do not depend on how many goroutines work. Beside the frame's own pixels a measurer needs some
// 8 MB for each of them, whatever the frame.
package measure

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"duskhand/checklist/subs"
)

// Kept is how many stars of a frame are worth keeping one by one: plenty to find the same ones on the next
// frame.
const Kept = 1500

// leastSide is the least width and height in which a star with its surroundings fits, pixels.
const leastSide = 32

// ErrNoSky is in the error of a frame without a pixel that has a value.
var ErrNoSky = errors.New("no pixel of it has a value; a light shows at least the sky")

// Image gives the pixels of a frame, in ADU. Several goroutines ask at once.
type Image interface {
	// Size returns width and height, pixels.
	Size() (width, height int)
	// Span writes the values of len(values) pixels from (x, y) on along the row; not a number for pixels
	// without a value.
	Span(x, y int, values []float32)
	// Top returns the largest value that a pixel can have, +Inf where there is no such.
	Top() float64
	// Step returns the least difference between two values, 0 where there is no such.
	Step() float64
}

// Measurer measures one frame after the other and keeps its memory in between. It serves one caller at a
// time.
type Measurer struct {
	keep    int
	strips  []*strip
	patches []*patch
}

// New returns a measurer in which that many goroutines work, at least one, and which keeps that many of
// the brightest stars of a frame.
func New(goroutines, keep int) *Measurer {
	m := &Measurer{keep: max(keep, 0)}
	for range max(goroutines, 1) {
		m.strips = append(m.strips, &strip{})
		m.patches = append(m.patches, newPatch())
	}
	return m
}

// Frame returns what a light shows.
//
// Frame:  pixels as in package subs, which counts from nought.
// Valid:  frames of 32 × 32 pixels up. Raw frames of colour chips are for Coloured.
// Error:  half-flux diameters of bright stars 3 % for Gaussian and Moffat profiles from 2.5 pixels up,
// centroids 0.1 pixel at ten times the noise.
func (m *Measurer) Frame(image Image) (subs.Measured, error) {
	width, height := image.Size()
	if width < leastSide || height < leastSide {
		return subs.Measured{}, fmt.Errorf("the frame is %d × %d pixels; from %d × %d up it can be measured",
			width, height, leastSide, leastSide)
	}
	sky, err := m.background(image)
	if err != nil {
		return subs.Measured{}, err
	}
	for _, p := range m.patches {
		p.topped = 0
	}
	tiles := tilesOf(width, height)
	found := make([][]candidate, len(tiles))
	share(len(m.patches), len(tiles), func(worker, i int) {
		found[i] = m.patches[worker].stars(image, sky, tiles[i])
	})
	stars := sift(slices.Concat(found...))
	slices.SortFunc(stars, brighter)
	out := sky.summary(stars, m.keep)
	out.Ninths = ninthsOf(stars, width, height)
	topped := 0
	for _, p := range m.patches {
		topped += p.topped
	}
	out.Saturated = float64(topped) / float64(width*height)
	return out, nil
}

// brighter puts the brightest first, and has an answer for equal ones.
func brighter(a, b candidate) int {
	return cmp.Or(cmp.Compare(b.Flux, a.Flux), cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X))
}
