package measure

import "slices"

const (
	// filterNoise is what the binomial filter 1 4 6 4 1 in both directions leaves of a pixel's noise:
	// √(1² + 4² + 6² + 4² + 1²)/16, squared.
	filterNoise = 70.0 / 256
	threshold   = 5.0 // σ of the filtered sky; of a 26-megapixel frame's noise one or two places pass
)

// tooLarge is a value that no camera gives, in ADU, and whose sums would not be numbers.
const tooLarge = 1e12

// Labels of pixels that no peak has.
const (
	free    = 0  // sky
	nothing = -1 // outside the frame, or without a value
)

// patch is a tile with its margin, and the memory for working on it.
type patch struct {
	mesh    *mesh
	at      tile
	full    float64
	value   []float32 // above the sky, ADU; 0 outside the frame
	filter  []float32 // the same, filtered
	label   []int32   // number of the pixel's peak, from 1; or free, or nothing
	bright  []int32   // pixels over the threshold
	sharp   []int32   // pixels that might be hot
	peaks   []peak
	level   []float32 // of the sky, along one row
	noise   []float32
	across  [5][]float32 // rows filtered along themselves
	one     [1]float32
	growth  []float64
	order   []uint64 // for sorting the bright pixels
	other   []uint64
	along   [side]float64 // a Gaussian along a row
	annulus []float32
	found   []candidate
	groups  []shape // of connected pixels, by the number of their first peak
	topped  int     // pixels of the tiles' own that are at the top of the scale, so far
}

func newPatch() *patch {
	p := &patch{
		value: make([]float32, side*side), filter: make([]float32, side*side), label: make([]int32, side*side),
		level: make([]float32, side), noise: make([]float32, side),
	}
	for i := range p.across {
		p.across[i] = make([]float32, side)
	}
	return p
}

// stars returns what might be stars among the tile's own.
func (p *patch) stars(image Image, s *mesh, at tile) []candidate {
	p.mesh, p.at, p.full = s, at, s.full
	p.load(image)
	p.cleanHot()
	p.countTopped()
	p.runFilter()
	p.pick()
	if len(p.bright) == 0 {
		return nil
	}
	p.flood()
	p.dropTrails()
	p.found = p.found[:0]
	for i := range p.peaks {
		if peak := &p.peaks[i]; peak.parent == int32(i) && !peak.trail && owns(peak.at) {
			if star, ok := p.star(int32(i)); ok {
				p.found = append(p.found, star)
			}
		}
	}
	return slices.Clone(p.found)
}

// load reads the tile and takes the sky off.
func (p *patch) load(image Image) {
	width, height := image.Size()
	p.sharp = p.sharp[:0]
	left := max(p.at.x-margin, 0)
	right := min(p.at.x+core+margin, width)
	for row := range side {
		y := p.at.y - margin + row
		values, labels := p.value[row*side:][:side], p.label[row*side:][:side]
		clear(values)
		for i := range labels {
			labels[i] = nothing
		}
		if y < 0 || y >= height {
			continue
		}
		from := left - (p.at.x - margin)
		values, labels = values[from:][:right-left], labels[from:][:right-left]
		image.Span(left, y, values)
		p.mesh.levels(left, y, p.level[:right-left])
		p.noiseRow(y, row == 0 || y == 0)
		noise := p.noise[from:]
		for i, level := range p.level[:right-left] {
			v := values[i] - level
			if !usable(v) && i > 0 && i+1 < right-left { // a single one takes its neighbours' place
				v = (values[i-1] + values[i+1] - level) / 2
			}
			if !usable(v) {
				values[i] = 0
				continue
			}
			values[i], labels[i] = v, free
			if v > hotFrom*noise[i] {
				p.sharp = append(p.sharp, int32(row*side+from+i))
			}
		}
	}
}

// countTopped counts the pixels at the top of the scale, but for those that were hot.
func (p *patch) countTopped() {
	for _, at := range p.sharp {
		if owns(at) && float64(p.value[at]+p.levelAt(at)) >= p.full {
			p.topped++
		}
	}
}

// runFilter filters the patch, which brings stars out of the noise. Of the sums of two neighbours, of
// which the filter is made, nothing is left of the chequers of a raw colour frame.
func (p *patch) runFilter() {
	for row := range side {
		values, out := p.value[row*side:][:side], p.across[row%5][2:side-2]
		for i := range out {
			v := values[i : i+5 : i+5]
			out[i] = 6*v[2] + 4*(v[1]+v[3]) + v[0] + v[4]
		}
		if row < 4 {
			continue
		}
		p.filterDown(row, p.filter[(row-2)*side:][:side])
	}
}

// filterDown filters the five rows that end at row down their columns.
func (p *patch) filterDown(row int, filtered []float32) {
	a, b, c := p.across[(row+1)%5][:len(filtered)], p.across[(row+2)%5][:len(filtered)], p.across[(row+3)%5][:len(filtered)]
	d, e := p.across[(row+4)%5][:len(filtered)], p.across[row%5][:len(filtered)]
	for i := range filtered {
		filtered[i] = (6*c[i] + 4*(b[i]+d[i]) + a[i] + e[i]) * (1.0 / 256)
	}
}

// pick lists the pixels over the threshold, but for the patch's rim, which has no neighbours.
func (p *patch) pick() {
	p.bright = p.bright[:0]
	for row := 2; row < side-2; row++ {
		p.noiseRow(p.at.y-margin+row, row == 2)
		noise, filter, label := p.noise[:side], p.filter[row*side:][:side], p.label[row*side:][:side]
		for i := 2; i < side-2; i++ {
			if filter[i] > threshold*filterNoise*noise[i] && label[i] == free {
				p.bright = append(p.bright, int32(row*side+i))
			}
		}
	}
}

// noiseRow sets the noise along row y of the frame, across the patch. It changes little from row to row,
// so it is that of every sixteenth; first asks for it whichever row this is.
func (p *patch) noiseRow(y int, first bool) {
	const rows = 16
	if first || y%rows == 0 {
		p.mesh.noises(p.at.x-margin, y-floorMod(y, rows), p.noise)
	}
}

// noiseAt returns the noise of one pixel of the sky, ADU.
func (p *patch) noiseAt(at int32) float64 {
	x, y := p.place(at)
	p.mesh.noises(x, y, p.one[:])
	return float64(p.one[0])
}

// levelAt returns the sky's level, ADU.
func (p *patch) levelAt(at int32) float32 {
	x, y := p.place(at)
	p.mesh.levels(x, y, p.one[:])
	return p.one[0]
}

// place returns where in the frame a pixel of the patch is.
func (p *patch) place(at int32) (x, y int) {
	return p.at.x - margin + int(at)%side, p.at.y - margin + int(at)/side
}
