package measure

import "slices"

const (
	standOut   = 7    // σ of the filtered sky by which a peak stands above the saddle to a higher one: both have noise
	standPart  = 0.08 // and the part of the saddle's height: the light of a bright star is noisy itself
	trailLong  = 60   // pixels
	trailRatio = 8    // of length to width
	trailStar  = 4    // times the mean of a trail that a star on it reaches
)

// peak is a place brighter than its surroundings, with the pixels that lie on its slopes.
type peak struct {
	at     int32   // the brightest pixel, filtered
	height float32 // of it, filtered, ADU
	noise  float32 // of the filtered sky there
	parent int32   // the higher peak that this is a bump of, or itself
	group  int32   // another peak of the same connected pixels, or itself
	half   int     // pixels from half the height up
	trail  bool
}

// flood divides the pixels over the threshold among peaks, going down from the brightest. Where two slopes
// meet, the lower peak stays one of its own only if it stands out.
func (p *patch) flood() {
	p.sortBright()
	p.peaks = p.peaks[:0]
	for _, at := range p.bright {
		p.label[at] = p.join(at) + 1
	}
	for _, at := range p.bright {
		root := p.root(p.label[at] - 1)
		p.label[at] = root + 1
		if peak := &p.peaks[root]; p.filter[at] >= peak.height/2 {
			peak.half++
		}
	}
}

// join returns the peak for a pixel: that of its brightest neighbour, or a new one. Peaks are numbered
// from the highest down.
func (p *patch) join(at int32) int32 {
	brightest, highest := int32(-1), int32(-1)
	for _, step := range neighbours {
		next := at + step
		if p.label[next] <= free {
			continue
		}
		if brightest < 0 || p.filter[next] > p.filter[brightest] {
			brightest = next
		}
		if root := p.root(p.label[next] - 1); highest < 0 || root < highest {
			highest = root
		}
	}
	if brightest < 0 {
		n := int32(len(p.peaks))
		p.peaks = append(p.peaks, peak{at: at, height: p.filter[at], noise: float32(filterNoise * p.noiseAt(at)), parent: n, group: n})
		return n
	}
	for _, step := range neighbours {
		if next := at + step; p.label[next] > free {
			p.meet(highest, p.root(p.label[next]-1), p.filter[at])
		}
	}
	return p.root(p.label[brightest] - 1)
}

// meet notes that the slopes of two peaks touch at a height.
func (p *patch) meet(higher, lower int32, saddle float32) {
	if higher == lower {
		return
	}
	a, b := p.groupOf(higher), p.groupOf(lower)
	p.peaks[max(a, b)].group = min(a, b)
	if peak := &p.peaks[lower]; peak.height-saddle < max(standOut*peak.noise, standPart*saddle) {
		peak.parent = higher
	}
}

func (p *patch) root(n int32) int32 {
	for p.peaks[n].parent != n {
		p.peaks[n].parent = p.peaks[p.peaks[n].parent].parent
		n = p.peaks[n].parent
	}
	return n
}

func (p *patch) groupOf(n int32) int32 {
	for p.peaks[n].group != n {
		p.peaks[n].group = p.peaks[p.peaks[n].group].group
		n = p.peaks[n].group
	}
	return n
}

// neighbours are the steps to the eight pixels around one.
var neighbours = [8]int32{-side - 1, -side, -side + 1, -1, 1, side - 1, side, side + 1}

// dropTrails marks the peaks of connected pixels that are long and narrow, as a satellite's or a meteor's
// trail is, but for stars that outshine it.
func (p *patch) dropTrails() {
	p.groups = slices.Grow(p.groups[:0], len(p.peaks))[:len(p.peaks)]
	clear(p.groups)
	for _, at := range p.bright {
		s := &p.groups[p.groupOf(p.label[at]-1)]
		s.add(float64(at%side), float64(at/side), 1)
		s.light += float64(p.filter[at])
	}
	for i := range p.peaks {
		s := &p.groups[p.groupOf(int32(i))]
		if length, width := s.extent(); length > trailLong && length > trailRatio*width {
			p.peaks[i].trail = float64(p.peaks[i].height) < trailStar*s.light/s.weight
		}
	}
}
