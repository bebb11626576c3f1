package measure

import (
	"math"
	"slices"
)

// cellSize is the width and height of a cell of the mesh: many times a star, and small against gradients.
const cellSize = 64 // pixels

// mesh is the background of a frame in a mesh of cells, and where its scale ends.
type mesh struct {
	columns, rows int
	level, noise  []float32 // of the cells, row by row
	full          float64   // from this value on a pixel is saturated, ADU
}

// strip is one row of cells being measured.
type strip struct {
	clipper
	upper, lower []float32   // two rows of pixels
	squares      [][]float32 // means of four pixels, by cell
	bends        [][]float32 // differences between a pixel and those two away on either side
	most         float32     // largest value seen
	times        int         // how often
}

// background measures the background.
func (m *Measurer) background(image Image) (*mesh, error) {
	width, height := image.Size()
	s := &mesh{columns: (width + cellSize - 1) / cellSize, rows: (height + cellSize - 1) / cellSize}
	s.level, s.noise = make([]float32, s.columns*s.rows), make([]float32, s.columns*s.rows)
	for _, strip := range m.strips {
		strip.most, strip.times = float32(math.Inf(-1)), 0
	}
	share(len(m.strips), s.rows, func(worker, i int) { m.strips[worker].measure(image, s, i) })
	s.noise = smoothed(s.noise, s.columns, s.rows)
	s.level = smoothed(s.level, s.columns, s.rows)
	if slices.ContainsFunc(s.level, isNaN) {
		return nil, ErrNoSky
	}
	s.floorNoise(image.Step())
	s.full = fullScale(m.strips, image.Top(), s)
	return s, nil
}

// measure fills row i of the mesh. The level is that of squares of four pixels, in which the colours of a
// raw colour frame have their shares; the noise is from how a pixel differs from those of its colour on
// either side, where neither a slope nor a nebula counts.
func (t *strip) measure(image Image, s *mesh, i int) {
	width, height := image.Size()
	t.upper, t.lower = resized(t.upper, width), resized(t.lower, width)
	t.squares, t.bends = emptied(t.squares, s.columns), emptied(t.bends, s.columns)
	for y := i * cellSize; y < min((i+1)*cellSize, height); y += 2 {
		image.Span(0, y, t.upper)
		t.watchTop(t.upper)
		if y+1 == height {
			break
		}
		image.Span(0, y+1, t.lower)
		t.watchTop(t.lower)
		t.sample(y / 2 % 2)
	}
	for c := range s.columns {
		level, _, ok := t.median(t.squares[c])
		_, noise, also := t.median(t.bends[c])
		if !ok || !also {
			level, noise = math.NaN(), math.NaN()
		}
		s.level[i*s.columns+c], s.noise[i*s.columns+c] = float32(level), float32(noise/math.Sqrt(1.5))
	}
}

// sample takes one square in four and the bend of one pixel in eight from the two rows.
func (t *strip) sample(odd int) {
	of := t.upper
	if odd == 1 {
		of = t.lower
	}
	for x := 2 + odd; x+2 < len(of); x += 4 {
		cell := x / cellSize
		if v := (t.upper[x] + t.upper[x+1] + t.lower[x] + t.lower[x+1]) / 4; usable(v) {
			t.squares[cell] = append(t.squares[cell], v)
		}
		if v := of[x] - (of[x-2]+of[x+2])/2; usable(v) {
			t.bends[cell] = append(t.bends[cell], v)
		}
	}
}

func resized(row []float32, n int) []float32 { return slices.Grow(row[:0], n)[:n] }

func emptied(cells [][]float32, n int) [][]float32 {
	cells = slices.Grow(cells[:0], n)[:n]
	for i := range cells {
		cells[i] = cells[i][:0]
	}
	return cells
}

// watchTop counts how often the largest value has been seen.
func (t *strip) watchTop(row []float32) {
	for _, v := range row {
		if v < t.most {
			continue
		}
		if v > t.most {
			t.most, t.times = v, 0
		}
		t.times++
	}
}

// smoothed returns a mesh with each cell the median of itself and its neighbours, which takes out cells
// that a bright star fills. Cells without a value take their neighbours'.
func smoothed(cells []float32, columns, rows int) []float32 {
	around := make([]float32, 0, 9)
	for {
		out, empty, filled := slices.Clone(cells), false, false
		for i := range cells {
			around = neighbourhood(around[:0], cells, i, columns, rows)
			if len(around) == 0 {
				empty = true
				continue
			}
			filled = filled || isNaN(cells[i])
			out[i] = float32(median(around))
		}
		if cells = out; !empty || !filled {
			return cells
		}
	}
}

// neighbourhood appends the values of a cell and those around it. Beyond the rim the mesh goes on along
// its slope, or the median would flatten a gradient there.
func neighbourhood(around, cells []float32, i, columns, rows int) []float32 {
	inside := func(x, y int) bool { return x >= 0 && x < columns && y >= 0 && y < rows }
	for down := -1; down <= 1; down++ {
		for right := -1; right <= 1; right++ {
			x, y := i%columns, i/columns
			v := float32(math.NaN())
			if inside(x+right, y+down) {
				v = cells[(y+down)*columns+x+right]
			} else if inside(x-right, y-down) {
				v = 2*cells[i] - cells[(y-down)*columns+x-right]
			}
			if !isNaN(v) {
				around = append(around, v)
			}
		}
	}
	return around
}

// floorNoise keeps the noise above what steps of the scale and of the computation make, so that a frame
// without any noise is not all stars.
func (s *mesh) floorNoise(step float64) {
	for i, level := range s.level { // the slope beyond the rim can lead below nought as well
		least := max(step/math.Sqrt(12), 1e-6*math.Abs(float64(level)), 1e-30)
		s.noise[i] = max(s.noise[i], float32(least))
	}
}

// fullScale returns from which value on a pixel is saturated: the top of the format, or where the pixels
// end below it, as those of a camera of 12 or 14 bits do, the largest value that several of them share.
func fullScale(strips []*strip, top float64, s *mesh) float64 {
	const (
		several = 4
		clearly = 20 // σ above the sky; the largest values of mere sky are often shared
		within  = 0.995
	)
	most, times := float32(math.Inf(-1)), 0
	for _, t := range strips {
		if t.most > most {
			most, times = t.most, 0
		}
		if t.most == most {
			times += t.times
		}
	}
	level, noise := s.typical()
	if times >= several && float64(most) > level+clearly*noise {
		top = min(top, float64(most))
	}
	return level + within*(top-level)
}

// typical returns level and noise of the middle of the frame's cells.
func (s *mesh) typical() (level, noise float64) {
	return median(slices.Clone(s.level)), median(slices.Clone(s.noise))
}

// levels writes the sky's level at len(out) pixels from (x, y) on. A pixel gets the same bits whichever x
// the row began at.
func (s *mesh) levels(x, y int, out []float32) { s.along(s.level, true, x, y, out) }

// noises writes the noise of a pixel there.
func (s *mesh) noises(x, y int, out []float32) { s.along(s.noise, false, x, y, out) }

// along goes straight from cell centre to cell centre; outside the outermost on along the same slope, or
// level, which keeps a noise above nought.
func (s *mesh) along(cells []float32, sloped bool, x, y int, out []float32) {
	upper, lower, down := between(y, s.rows)
	if !sloped {
		down = min(max(down, 0), cellSize)
	}
	at := func(column int) float32 {
		a, b := cells[upper*s.columns+column], cells[lower*s.columns+column]
		return a + (b-a)*float32(down)/cellSize
	}
	for i := 0; i < len(out); {
		left, right, step := between(x+i, s.columns)
		a, slope := at(left), (at(right)-at(left))/cellSize
		if !sloped && (step < 0 || step >= cellSize) {
			a, slope = at(nearer(left, right, step)), 0
		}
		n := min(cellSize-floorMod(step, cellSize), len(out)-i)
		for j := range out[i : i+n] {
			out[i+j] = a + slope*float32(step+j)
		}
		i += n
	}
}

// between returns the two cells from whose centres a pixel's value follows, and how many pixels from the
// first towards the second it is: below nought or above a cell's size outside the outermost centres.
func between(p, cells int) (before, after, step int) {
	q := p - cellSize/2
	before = min(max((q-floorMod(q, cellSize))/cellSize, 0), max(cells-2, 0))
	return before, min(before+1, cells-1), q - before*cellSize
}

func nearer(left, right, step int) int {
	if step < 0 {
		return left
	}
	return right
}

// floorMod returns a modulo b, 0 or above for negative a too.
func floorMod(a, b int) int { return (a%b + b) % b }

// usable tells whether a pixel has a value that can be summed.
func usable(v float32) bool { return v > -tooLarge && v < tooLarge }

func isNaN(v float32) bool { return v != v }
