package measure

import (
	"math"
	"slices"
)

const (
	clip      = 3  // σ beyond which a pixel is no sky
	fewest    = 16 // samples below which a cell says nothing
	maxRounds = 10 // of clipping; it settles in three or four
)

// clipper is the memory for clipped medians.
type clipper struct {
	sorter
	sums, squares []float64 // of the samples before each
}

// median returns the median of the sky among samples, which it sorts, and the scatter of one pixel around
// it. ok is false when there are too few.
//
// The first guess of the scatter is from the samples below the median, where stars do not reach.
func (c *clipper) median(samples []float32) (level, noise float64, ok bool) {
	if len(samples) < fewest {
		return 0, 0, false
	}
	c.sort(samples)
	c.add(samples)
	from, to := 0, len(samples)
	level = middle(samples)
	noise = float64(samples[len(samples)/2] - samples[len(samples)*16/100]) // 16 % of a Gaussian lie below one σ
	for range maxRounds {
		low, _ := slices.BinarySearch(samples, float32(level-clip*noise))
		high, _ := slices.BinarySearch(samples, math.Nextafter32(float32(level+clip*noise), float32(math.Inf(1))))
		if high-low < fewest || low == from && high == to {
			break
		}
		from, to = low, high
		level = middle(samples[from:to])
		n := float64(to - from)
		mean := (c.sums[to] - c.sums[from]) / n
		noise = math.Sqrt(max((c.squares[to]-c.squares[from])/n-mean*mean, 0))
	}
	return level, noise, true
}

func (c *clipper) add(samples []float32) {
	offset := samples[len(samples)/2] // keeps the squares small
	c.sums, c.squares = append(c.sums[:0], 0), append(c.squares[:0], 0)
	sum, square := 0.0, 0.0
	for _, v := range samples {
		d := float64(v - offset)
		sum, square = sum+d, square+d*d
		c.sums, c.squares = append(c.sums, sum), append(c.squares, square)
	}
}

// middle returns the median of a sorted slice.
func middle(sorted []float32) float64 {
	n := len(sorted)
	return (float64(sorted[(n-1)/2]) + float64(sorted[n/2])) / 2
}

// median returns the median of values, which it sorts; 0 of none.
func median(values []float32) float64 {
	if len(values) == 0 {
		return 0
	}
	slices.Sort(values)
	return middle(values)
}
