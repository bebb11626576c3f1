package measure

import (
	"cmp"
	"math"
	"slices"
)

// The crowd of the stars; choices of ours.
const (
	crowdWidth = 0.3 // of the logarithm of the diameter: the stars of a frame differ by less than a third
	crowdShare = 0.4 // of the densest crowd's number that a smaller crowd has, to be the stars
	crowdTight = 2.0 // times the number that its surroundings would give an interval of its width
	crowdReach = 2.0 // how far the surroundings reach, in widths to either side
)

// crowdOf returns those candidates that are the frame's stars beyond doubt: the small, tight crowd. What the
// optics make of a point is the same over the frame, so the stars stand together in the logarithm of the
// diameter, while lumps of nebula, which may be many more and brighter, have all sizes from some times the
// stars' on. So the crowd is the densest interval, or a smaller one nearly as dense that stands out from what
// is around it. A star on a lump counts with what it is when held small.
//
// Own derivation; the middle of all, as it would be without lumps, is the middle of the crowd.
func crowdOf(all []candidate) []candidate {
	good := slices.Clone(all)
	for i, c := range good {
		if c.small != nil && c.small.HFD < smallest { // a lump fills its window, and all that do have one size
			good[i] = *c.small
		}
	}
	slices.SortFunc(good, func(a, b candidate) int { return cmp.Or(cmp.Compare(a.HFD, b.HFD), brighter(a, b)) })
	sizes := make([]float64, len(good))
	for i, c := range good {
		sizes[i] = math.Log(c.HFD)
	}
	most := 0
	for from := range sizes {
		most = max(most, reaches(sizes, from, crowdWidth)-from)
	}
	for from := range sizes {
		to := reaches(sizes, from, crowdWidth)
		if n := to - from; n == most || n >= enough && float64(n) >= crowdShare*float64(most) && tight(sizes, from, to) {
			from, to = densest(sizes, from, to)
			return good[from:to]
		}
	}
	return nil
}

// reaches returns the index behind the last of the sorted sizes within a width of that at from.
func reaches(sizes []float64, from int, width float64) int {
	to, _ := slices.BinarySearch(sizes, math.Nextafter(sizes[from]+width, math.Inf(1)))
	return to
}

// tight tells whether an interval has more than its surroundings would give it.
func tight(sizes []float64, from, to int) bool {
	low, _ := slices.BinarySearch(sizes, sizes[from]-crowdReach*crowdWidth)
	high, _ := slices.BinarySearch(sizes, sizes[from]+(1+crowdReach)*crowdWidth)
	around := float64(from-low+high-to) / (2 * crowdReach)
	return float64(to-from) >= crowdTight*around
}

// densest moves an interval that was the first to be dense enough on to where it is densest close by.
func densest(sizes []float64, first, last int) (from, to int) {
	from, to = first, last
	for next := first + 1; next < last; next++ {
		if end := reaches(sizes, next, crowdWidth); end-next > to-from {
			from, to = next, end
		}
	}
	return from, to
}

// rays tells whether a crowd is tracks of particles in a frame whose stars are all overexposed: far smaller than
// the smaller of those, which are not far fewer.
func rays(crowd, full []candidate) bool {
	if len(full) < enough || 2*len(full) < len(crowd) {
		return false
	}
	sizes := make([]float64, len(full))
	for i, c := range full {
		sizes[i] = c.HFD
	}
	slices.Sort(sizes)
	return medianOf(crowd, func(c candidate) float64 { return c.HFD }) < least*sizes[len(sizes)/4]
}
